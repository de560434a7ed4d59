"""How well talk-through is heard: steps said in the midst of other talk, and false ticks.

    python -m tests.bench.practice [--voices NAME,NAME] [--per-rule N] [--half choose|report] [--keep FOLDER]

Three sets of sentences. Ways: those of tests/phrases/natural.toml, which were collected for the guide, before
practice and its sentences were written; here each stands between other words. Runs: the sentences of
tests/care/practice/runs.py, written from the checklist, chatter among them. Chatter: breaths that say no
step, of practice_talk.toml and of everyday prose. All thresholds were chosen on one half of the ways and of
the other talk; of the half "report" nothing was heard before. What one voice says of a set is one recording,
heard through the program's own door. Needs the synthesisers of tests/voice and the Vosk model.
Prints a line for each voice and set, each step that was not found, and each false tick.
"""

from __future__ import annotations

import argparse
import pickle
import tomllib
from bisect import bisect
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import count, islice
from pathlib import Path

import numpy as np

from handsfree.care.practice.listening import listen
from handsfree.care.practice.session import Practice
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.judge import judge
from handsfree.phrases.readings import by_reading, reading
from handsfree.phrases.spotting import NEEDED, spotted
from handsfree.signals import REPORT, Gate, Heard, Utterance
from tests.bench.hearing_prose import sentences as prose
from tests.care.practice.runs import RUNS, Line
from tests.dialogues import shipped
from tests.ears import vosk
from tests.voice.hearing import Samples, Sound
from tests.voice.practice import BEGAN, lexicon
from tests.voice.sound_shape import clip, silence
from tests.voice.synthesisers import VOICES

NATURAL = Path(__file__).parents[1] / "phrases" / "natural.toml"

TALK = tomllib.loads((Path(__file__).parent / "practice_talk.toml").read_text("utf-8"))
"""By half: other talk before and behind a way of saying a step, and breaths of it alone."""

APART_S = 1.3
"""Silence between sentences: enough to end an utterance that might go on."""

_SECOND = 16_000


@dataclass(frozen=True, slots=True)
class Sentence:
    """What is said, and for each step in it the rules by which it can be told."""

    words: str
    wanted: tuple[frozenset[str], ...] = ()


@dataclass(slots=True)
class Tally:
    """missed: each step that was not found. false: each tick of what was not said; both with the sentence."""

    steps: int = 0
    ticks: int = 0
    missed: list[str] = field(default_factory=list)
    false: list[str] = field(default_factory=list)

    def take(self, one: Sentence, heard: list[frozenset[str]]) -> None:
        """Count what was heard of one sentence."""
        self.steps += len(one.wanted)
        self.ticks += len(heard)
        for rules in one.wanted:
            right = next((ticked for ticked in heard if ticked & rules), None)
            if right is None:
                self.missed.append(f"{' '.join(sorted(rules))} | {one.words}")
            else:
                heard.remove(right)
        self.false += [f"{' '.join(sorted(ticked))} | {one.words}" for ticked in heard]

    def line(self, name: str) -> str:
        found = self.steps - len(self.missed)
        share, wrong = 100 * found / max(self.steps, 1), 100 * len(self.false) / max(self.ticks, 1)
        return (
            f"{name:<20} {found} of {self.steps} found, {share:.1f} %; "
            f"{len(self.false)} of {self.ticks} ticks false, {wrong:.1f} %"
        )


def ways(half: str, per_rule: int) -> Iterator[Sentence]:
    """So many ways of telling each step, of one half of all, each between other words."""
    before, behind = TALK[half]["before"], TALK[half]["behind"]
    nth = count()
    tables = tomllib.loads(NATURAL.read_text("utf-8")).values()
    for rule in dict.fromkeys(rule for step in shipped().steps for rule in step.rules):
        every = [one for rules in tables for key in rules if key.split()[0] == rule for one in rules[key]]
        own = list(dict.fromkeys(filter(_stands, every)))[list(TALK).index(half) :: 2]
        for one in _spread(own, per_rule):
            n = next(nth)
            words = (before[n % len(before)], one, behind[(n + n // len(behind)) % len(behind)])
            yield Sentence(" ".join(words), (frozenset((rule,)),))


def _spread(own: list[str], most: int) -> list[str]:
    """So many of them, from the first to the last."""
    if len(own) <= most or most < 2:
        return own[:most]
    return [own[round(n * (len(own) - 1) / (most - 1))] for n in range(most)]


def _stands(words: str) -> bool:
    """Whether a way can stand between other words: more than one word; digits are read variously."""
    return len(words.split()) > 1 and not any(letter.isdigit() for letter in words)


def sentences_of_runs() -> Iterator[Sentence]:
    """What is said in the runs, once each, but for findings, faults and commands."""
    said: dict[str, Line] = {one.words: one for run in RUNS.values() for one in run.lines if one.words}
    chatter = {one.words for one in RUNS["chatter"].lines}
    for words, one in said.items():
        if one.steps or words in chatter:
            yield Sentence(words, tuple(frozenset(shipped().step(step).rules) for step in one.steps))


def chatter(half: str) -> Iterator[Sentence]:
    """Breaths of other talk: what was written for the half, half as many of prose, a quarter of licences."""
    written, split = TALK[half]["chatter"], {"choose": "tune"}.get(half, half)
    talk, licence = prose("talk", split, half), prose("licence", split, half)
    few = len(written) // 2
    yield from map(Sentence, (*written, *islice(talk, few), *islice(licence, few // 2)))


def utterances(voice: str, said: list[Sentence]) -> list[list[Utterance]]:
    """What is heard of each sentence: all in one recording, with silence between them."""
    parts, ends_s = [silence(1.0)], list[float]()
    for one in said:
        parts += [clip(VOICES[voice].speak(one.words)), silence(APART_S)]
        ends_s.append(sum(map(len, parts)) / _SECOND)
    found: list[list[Utterance]] = [[] for _ in said]
    for utterance in _heard(np.concatenate(parts)):
        middle_s = (utterance.start_s + utterance.end_s) / 2
        found[bisect(ends_s, middle_s)].append(replace(utterance, pcm=b""))
    return found


def _heard(sound: Sound) -> Iterator[Utterance]:
    allowed, words = listen(Practice(shipped(), BEGAN)), lexicon(vosk())
    door = SoundDoor(Samples(sound), vosk(), SoundClock(BEGAN))
    door.open(words.sentences(allowed), Gate.OPEN, "")
    while isinstance(utterance := door.next(None), Utterance):
        yield utterance


def kept(
    folder: Path | None, name: tuple[str, ...], said: list[Sentence]
) -> Iterator[tuple[Sentence, list[Utterance]]]:
    """What was heard of each sentence: in a folder, where it was heard before."""
    file = folder / f"{'-'.join(name)}.pickle" if folder else None
    if file is not None and file.exists():
        yield from pickle.loads(file.read_bytes())
        return
    rows = list(zip(said, utterances(name[1], said), strict=True))
    if file is not None:
        file.write_bytes(pickle.dumps(rows))
    yield from rows


def sets(half: str, per_rule: int) -> dict[str, list[Sentence]]:
    """All that is said, by kind."""
    return {
        "ways": list(ways(half, per_rule)),
        "runs": list(sentences_of_runs()),
        "chatter": list(chatter(half)),
    }


def strict() -> Grammar:
    """The sentences of the checklist alone."""
    return lexicon(vosk()).grammar(listen(Practice(shipped(), BEGAN)))


def ticked(utterance: Utterance, needed: float = NEEDED) -> Iterator[frozenset[str]]:
    """The rules of each answer that is taken from an utterance, as the corridor does."""
    outcome = judge(strict(), utterance, means=by_reading)
    if not isinstance(outcome, Heard) or outcome.command == REPORT:
        for one in spotted(strict(), utterance, reading, lexicon(vosk()).common, needed):
            yield frozenset((one.node.rule, *one.also))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How well talk-through is heard.")
    parser.add_argument("--voices", default="piper_joe,flite_slt,festival_slt")
    parser.add_argument("--per-rule", type=int, default=2)
    parser.add_argument("--half", choices=list(TALK), default="report")
    parser.add_argument("--keep", type=Path, default=None, help="folder for what was heard")
    options = parser.parse_args()
    for voice in options.voices.split(","):
        for name, said in sets(options.half, options.per_rule).items():
            tally = Tally()
            for one, utterances in kept(options.keep, (options.half, voice, name), said):
                tally.take(one, [rules for each in utterances for rules in ticked(each)])
            print(tally.line(f"{voice} {name}"), flush=True)
            print(*(f"    missed: {one}" for one in tally.missed), sep="\n")
            print(*(f"    false: {one}" for one in tally.false), sep="\n", flush=True)


if __name__ == "__main__":
    main()
