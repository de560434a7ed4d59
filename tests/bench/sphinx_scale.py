"""What the scale of the PocketSphinx ear was fitted on: the weights, and the table of thresholds.

    python -m tests.bench.sphinx_scale --hear       hears the tuning half of the corpus, keeps the evidence
    python -m tests.bench.sphinx_scale              fits the weights, prints the table of thresholds

As tests/bench/judge_scale.py does it for Vosk: only the split "tune" is used, commands in quiet and in four
noises, and other speech beside three grammars. A row is an utterance in which the ear found a sentence.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.hear.sphinx_ear import SphinxEar
from handsfree.hear.sphinx_evidence import Evidence
from handsfree.odds import Scale
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.judge import SCORE, candidates
from handsfree.phrases.meaning import by_words
from handsfree.phrases.numbers import holds_number
from handsfree.signals import Gate, Utterance
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_manifest
from tests.bench.hearing import sample
from tests.bench.hearing_edges import sound_of
from tests.bench.hearing_manifest import CORPUS
from tests.bench.hearing_noises import NOISES, noise_of
from tests.bench.hearing_trial import Trial
from tests.bench.regression import weights
from tests.voice.hearing import Samples
from tests.voice.synthesisers import Sound

COMMANDS = 180
LEVELS = ("quiet", "15")
OTHER = ("garden", "own:order", "own:order::confirming")
PIECES = ("lead", "worst", "beyond", "seconds")
NEEDS = (0.2, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95)


@dataclass(frozen=True, slots=True)
class Row:
    """What speaks for a sentence, and whether it was said. level: empty for other speech.

    inside: whether it, or the other likely one, was said. share: of the likelihood of both.
    """

    evidence: Evidence
    inside: bool
    share: float
    number: bool
    right: bool
    level: str
    said: str
    heard: str


def hear(corpus: Path, commands: int, files: int | None) -> Iterator[Row]:
    """Hear so many commands of the tuning half, and so many files of its other speech (None: all)."""
    clips = [clip for clip in hearing_manifest.read(corpus) if clip.split == "tune"]
    ear = SphinxEar(refused_below=0.0)
    spoken = [one for one in clips if one.sentence and grammars.holds(one.name, one.sentence)]
    for clip in sample(spoken, commands):
        for level in LEVELS:
            sound = Trial(corpus, clip, noise_of(clip.file, tuple(NOISES)), level).sound
            yield from _rows(ear, sound, (clip.name, clip.sentence), level)
    for clip in [one for one in clips if not one.sentence][:files]:
        for name in OTHER:
            yield from _rows(ear, sound_of(corpus / clip.file), (name, ""), "")


def _rows(ear: SphinxEar, sound: Sound, said: tuple[str, str], level: str) -> Iterator[Row]:
    name, sentence = said
    grammar = grammars.compiled(name, ear.knows)
    meant = {by_words(node) for node in grammars.compiled(name).match(tuple(sentence.split()))}
    for utterance in _utterances(ear, grammar, sound):
        evidence, found = ear.recogniser.evidence, candidates(grammar, utterance)
        if evidence and found:
            best = found[0].node
            right = [by_words(one.node) in meant for one in found]
            share = SCORE.shares([one.score for one in found], 0.0)[0]
            number, heard = holds_number(best.words), " ".join(best.words)
            yield Row(evidence, any(right), share, number, right[0], level, sentence, heard)


def _utterances(ear: SphinxEar, grammar: Grammar, sound: Sound) -> Iterator[Utterance]:
    ear.hear(None)
    door = SoundDoor(Samples(sound), ear, SoundClock(datetime(2031, 5, 4, tzinfo=UTC)))
    door.open(grammar, Gate.OPEN, "")
    while isinstance(one := door.next(None), Utterance):
        yield one


def fitted(rows: list[Row]) -> NDArray[np.float64]:
    """Base and weights."""
    pieces = np.array([[1.0, *(getattr(row.evidence, piece) for piece in PIECES)] for row in rows])
    return weights(pieces, np.array([row.inside for row in rows], np.float64))


def table(rows: list[Row], scale: Scale[Evidence]) -> str:
    """By threshold: right and wrong that pass it, of commands by level and of other speech."""
    levels = (*LEVELS, "")
    head = " | ".join(level or "other speech" for level in levels)
    lines = [f"| class | confidence | {head} |", "| --- " * (len(levels) + 2) + "|"]
    for number in (False, True):
        for need in NEEDS:
            passed = [row for row in rows if row.number is number and _sure(row, scale) >= need]
            cells = " | ".join(_cell([row for row in passed if row.level == level]) for level in levels)
            lines.append(f"| {'number' if number else 'words'} | {need} | {cells} |")
    return "\n".join(lines)


def _sure(row: Row, scale: Scale[Evidence]) -> float:
    """As the judge has it."""
    return scale.likely(row.evidence) * row.share


def _cell(rows: list[Row]) -> str:
    right = sum(row.right for row in rows)
    return f"{right} / {len(rows) - right}"


def _row(line: str) -> Row:
    kept = json.loads(line)
    return Row(**kept | {"evidence": Evidence(**kept["evidence"])})


def main() -> None:
    """Hear or fit."""
    parser = argparse.ArgumentParser(description="Fits the scale of the PocketSphinx ear.")
    parser.add_argument("--hear", action="store_true")
    parser.add_argument("--corpus", type=Path, default=CORPUS)
    parser.add_argument("--commands", type=int, default=COMMANDS)
    parser.add_argument("--files", type=int, help="files of other speech")
    given = parser.parse_args()
    kept = given.corpus / "results" / "sphinx-scale.jsonl"
    if given.hear:
        with kept.open("w", encoding="utf-8") as lines:
            for row in hear(given.corpus, given.commands, given.files):
                lines.write(json.dumps(asdict(row)) + "\n")
                lines.flush()
    rows = [_row(line) for line in kept.read_text("utf-8").splitlines()]
    found = fitted(rows)
    print(dict(zip(("base", *PIECES), np.round(found, 2).tolist(), strict=True)))
    base, *pieces = found.tolist()
    print(table(rows, Scale(base, Evidence(*pieces))))


if __name__ == "__main__":
    main()
