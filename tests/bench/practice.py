"""How well talk-through is heard: steps said in the midst of other talk, and false ticks.

    python -m tests.bench.practice [--voices NAME,NAME] [--per-rule N] [--half choose|report]

Two sets of sentences. Ways: those of tests/phrases/natural.toml, which were collected for the guide, before
practice and its sentences were written; here each stands between other words. Half of them, with other talk
around, were never looked at while thresholds were chosen. Runs: the sentences of
tests/care/practice/runs.py, written from the checklist, chatter among them. What one voice says of a set is
one recording, heard through the program's own door. Needs the synthesisers of tests/voice and the Vosk model.
Prints a line for each voice and set, each step that was not found, and each false tick.
"""

from __future__ import annotations

import argparse
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

import numpy as np

from handsfree.care.practice.listening import listen
from handsfree.care.practice.session import Practice
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.judge import judge
from handsfree.phrases.readings import by_reading, reading
from handsfree.phrases.spotting import spotted
from handsfree.signals import REPORT, Gate, Heard, Utterance
from tests.care.practice.runs import RUNS, Line
from tests.dialogues import shipped
from tests.ears import vosk
from tests.voice.hearing import Samples, Sound
from tests.voice.practice import BEGAN, lexicon
from tests.voice.sound_shape import clip, silence
from tests.voice.synthesisers import VOICES

NATURAL = Path(__file__).parents[1] / "phrases" / "natural.toml"

AROUND = {
    "choose": (
        ("okay so now", "right and then", "well", "and now as you can see", "so the next thing is"),
        ("and then we go on", "and that is fine", "as it should be", "and now we can go on",
         "so far so good"),
    ),
    "report": (
        ("alright", "let me see", "good so", "now i", "then after that", "so what i do now is", "um yes"),
        ("so on we go", "i think that's right", "and i keep on talking", "is that alright with you",
         "okay good", "let me go on then", "now where was i"),
    ),
}  # fmt: skip
"""By half: other talk before and behind a way of saying a step."""

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
    before, after = AROUND[half]
    nth = count()
    tables = tomllib.loads(NATURAL.read_text("utf-8")).values()
    for rule in dict.fromkeys(rule for step in shipped().steps for rule in step.rules):
        every = [one for rules in tables for key in rules if key.split()[0] == rule for one in rules[key]]
        own = list(dict.fromkeys(filter(_stands, every)))[list(AROUND).index(half) :: 2]
        for one in _spread(own, per_rule):
            n = next(nth)
            words = (before[n % len(before)], one, after[(n + n // len(after)) % len(after)])
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


def heard(voice: str, said: list[Sentence]) -> Iterator[tuple[Sentence, list[frozenset[str]]]]:
    """Each sentence with the rules of each answer that is heard in it."""
    parts, ends_s = [silence(1.0)], list[float]()
    for one in said:
        parts += [clip(VOICES[voice].speak(one.words)), silence(APART_S)]
        ends_s.append(sum(map(len, parts)) / _SECOND)
    found: list[list[frozenset[str]]] = [[] for _ in said]
    for middle_s, rules in _ticked(np.concatenate(parts)):
        found[next(n for n, end_s in enumerate(ends_s) if middle_s < end_s)].append(rules)
    yield from zip(said, found, strict=True)


def _ticked(sound: Sound) -> Iterator[tuple[float, frozenset[str]]]:
    """The rules of each answer that is heard, with the middle of its utterance."""
    allowed, words = listen(Practice(shipped(), BEGAN)), lexicon(vosk())
    strict = words.grammar(allowed)
    door = SoundDoor(Samples(sound), vosk(), SoundClock(BEGAN))
    door.open(words.sentences(allowed), Gate.OPEN, "")
    while isinstance(utterance := door.next(None), Utterance):
        outcome = judge(strict, utterance, means=by_reading)
        if isinstance(outcome, Heard) and outcome.command != REPORT:
            continue
        for one in spotted(strict, utterance, reading, words.common):
            yield (utterance.start_s + utterance.end_s) / 2, frozenset((one.node.rule, *one.also))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How well talk-through is heard.")
    parser.add_argument("--voices", default="piper_joe,flite_slt,festival_slt,espeak_us")
    parser.add_argument("--per-rule", type=int, default=4)
    parser.add_argument("--half", choices=list(AROUND), default="report")
    options = parser.parse_args()
    sets = {"ways": list(ways(options.half, options.per_rule)), "runs": list(sentences_of_runs())}
    for voice in options.voices.split(","):
        for name, said in sets.items():
            tally = Tally()
            for one, ticked in heard(voice, said):
                tally.take(one, ticked)
            print(tally.line(f"{voice} {name}"), flush=True)
            print(*(f"    missed: {one}" for one in tally.missed), sep="\n")
            print(*(f"    false: {one}" for one in tally.false), sep="\n", flush=True)


if __name__ == "__main__":
    main()
