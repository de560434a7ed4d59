"""What the judge's scale was fitted on: the weights, and the table from which thresholds were read.

    python -m tests.bench.judge_scale --hear        hears the tuning half of the corpus, keeps the evidence
    python -m tests.bench.judge_scale               fits the weights, prints the table of thresholds

Two things are fitted: how likely it is that a sentence of the grammar was said at all (logistic regression on
the evidence), and how much a lead over another sentence is worth, in quiet and in noise (maximum likelihood).

Only the split "tune" of the benchmark's corpus is used (tests/bench/hearing.py says which voices and grammars
that is): commands in quiet and in four noises, and other speech beside two grammars. Every utterance for
which the grammar has a sentence is one row.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from itertools import chain, product
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.odds import Scale
from handsfree.phrases import judge
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.meaning import by_words
from handsfree.phrases.numbers import holds_number
from handsfree.phrases.readings import by_reading
from handsfree.ports import Ear
from handsfree.signals import Gate, Utterance
from handsfree.wiring import make_ear
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_manifest
from tests.bench.hearing import sample
from tests.bench.hearing_edges import sound_of
from tests.bench.hearing_manifest import CORPUS, Clip
from tests.bench.hearing_noises import NOISES, noise_of
from tests.bench.hearing_trial import Trial
from tests.bench.regression import weights
from tests.voice.hearing import Samples
from tests.voice.synthesisers import Sound

COMMANDS = 600
LEVELS = ("quiet", "15", "6")
OTHER = ("garden", "own:order", "own:order::confirming")
PIECES = ("behind", "outside", "words", "noise", "unheard")


@dataclass(frozen=True, slots=True)
class Row:
    """What speaks for the likeliest sentence, and which one was said.

    sounds: of all sentences, the likeliest first, and of the opposite of one. meant: place in them of the one
    that was said, -1 if none. level: empty for other speech.
    """

    behind: float
    outside: float
    words: float
    noise: float
    unheard: float
    sounds: tuple[float, ...]
    meant: int
    kind: str
    level: str
    said: str
    heard: str

    @property
    def evidence(self) -> judge.Evidence:
        """As the judge has it."""
        return judge.Evidence(self.behind, self.outside, self.words, self.noise, self.unheard)


def hear(corpus: Path, out: Path) -> None:
    """Hear the tuning half, write a line for each utterance that a sentence was found for."""
    clips = [clip for clip in hearing_manifest.read(corpus) if clip.split == "tune"]
    ear = make_ear("vosk")
    with out.open("w", encoding="utf-8") as lines:
        for row in chain(_commands(ear, corpus, clips), _talk(ear, corpus, clips)):
            lines.write(json.dumps(asdict(row)) + "\n")
            lines.flush()


def _commands(ear: Ear, corpus: Path, clips: list[Clip]) -> Iterator[Row]:
    spoken = [one for one in clips if one.sentence and grammars.holds(one.name, one.sentence)]
    for clip in sample(spoken, COMMANDS):
        for level in LEVELS:
            sound = Trial(corpus, clip, noise_of(clip.file, tuple(NOISES)), level).sound
            yield from _rows(ear, sound, (clip.name, clip.sentence), level)


def _talk(ear: Ear, corpus: Path, clips: list[Clip]) -> Iterator[Row]:
    for clip in clips:
        if not clip.sentence:
            for name in OTHER:
                yield from _rows(ear, sound_of(corpus / clip.file), (name, ""), "")


def _rows(ear: Ear, sound: Sound, said: tuple[str, str], level: str) -> Iterator[Row]:
    name, sentence = said
    grammar = grammars.compiled(name, ear.knows)
    means = by_reading if name.startswith("own") else by_words
    meant = {means(node) for node in grammars.compiled(name).match(tuple(sentence.split()))}
    for utterance in _utterances(ear, grammar, sound):
        found = judge.candidates(grammar, utterance, means)
        if found:
            best = found[0].node.words
            yield Row(
                **asdict(judge.evidence(found, utterance)),
                sounds=(*(one.sound for one in found), *judge.opposed(grammar, utterance.alternatives)),
                meant=next((place for place, one in enumerate(found) if means(one.node) in meant), -1),
                kind="lone" if len(best) == 1 else "number" if holds_number(best) else "words",
                level=level,
                said=sentence,
                heard=" ".join(best),
            )


def _utterances(ear: Ear, grammar: Grammar, sound: Sound) -> Iterator[Utterance]:
    ear.hear(None)
    door = SoundDoor(Samples(sound), ear, SoundClock(datetime(2031, 5, 4, tzinfo=UTC)))
    door.open(grammar, Gate.OPEN, "")
    while isinstance(one := door.next(None), Utterance):
        yield one


def fitted(rows: list[Row]) -> tuple[Scale[judge.Evidence], judge.Lead]:
    """The weights that make what was said likeliest."""
    base, *pieces = np.round(_weights(rows), 2).tolist()
    return Scale(base, judge.Evidence(*pieces)), judge.Lead(*_temper(rows))


def _weights(rows: list[Row]) -> NDArray[np.float64]:
    pieces = np.array([[1.0, *(getattr(row, piece) for piece in PIECES)] for row in rows])
    inside = np.array([row.meant >= 0 for row in rows], np.float64)
    return weights(pieces, inside)


def _temper(rows: list[Row]) -> tuple[float, float]:
    """`sharp` and `blunt`: of all in steps of 0.05 those that give the sentences that were said most."""
    spoken = [row for row in rows if row.meant >= 0]
    steps = [round(0.05 * step, 2) for step in range(2, 30)]
    return max(product(steps, steps), key=lambda pair: sum(_told(row, *pair) for row in spoken))


def _told(row: Row, sharp: float, blunt: float) -> float:
    """Log likelihood of what was said."""
    nats = sharp + blunt * row.noise
    weights = np.exp((np.array(row.sounds) - row.sounds[0]) / nats)
    return float(np.log(max(weights[row.meant] / weights.sum(), 1e-4)))


def table(rows: list[Row], scale: Scale[judge.Evidence], lead: judge.Lead) -> str:
    """By threshold: right and wrong that pass it, of commands by level and of other speech."""
    levels = (*LEVELS, "")
    head = " | ".join(f"{level or 'other speech'}" for level in levels)
    lines = [f"| class | confidence | {head} |", "| --- " * (len(levels) + 2) + "|"]
    for kind in ("words", "number", "lone"):
        chosen = [row for row in rows if row.kind == kind]
        for need in (0.5, 0.7, 0.8, 0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99):
            passed = [row for row in chosen if confidence(scale, lead, row) >= need]
            cells = [_cell([row for row in passed if row.level == level]) for level in levels]
            lines.append(f"| {kind} | {need} | {' | '.join(cells)} |")
    return "\n".join(lines)


def confidence(scale: Scale[judge.Evidence], lead: judge.Lead, row: Row) -> float:
    """Of the likeliest sentence."""
    return scale.likely(row.evidence) * lead.shares(row.sounds, row.noise)[0]


def _cell(rows: list[Row]) -> str:
    right = sum(row.meant == 0 for row in rows)
    return f"{right} / {len(rows) - right}"


def main() -> None:
    """Hear or fit."""
    parser = argparse.ArgumentParser(description="Fits the judge's scale.")
    parser.add_argument("--hear", action="store_true")
    parser.add_argument("--corpus", type=Path, default=CORPUS)
    given = parser.parse_args()
    kept = given.corpus / "results" / "judge-scale.jsonl"
    if given.hear:
        hear(given.corpus, kept)
    rows = [Row(**json.loads(line)) for line in kept.read_text("utf-8").splitlines()]
    scale, lead = fitted(rows)
    print(scale, lead)
    print(table(rows, scale, lead))


if __name__ == "__main__":
    main()
