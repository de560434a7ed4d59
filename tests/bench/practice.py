"""How well talk-through is heard: ways of saying each step in the midst of other talk, and false ticks.

    python -m tests.bench.practice [--voices NAME,NAME] [--per-rule N]

The ways are those of tests/phrases/natural.toml, which were collected for the guide, before practice and
its sentences were written; here each stands between other words. Needs the synthesisers of tests/voice and
the Vosk model. Prints a line for each voice, each way that was not found, and each false tick.
"""

from __future__ import annotations

import argparse
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import cycle
from pathlib import Path

import numpy as np

from handsfree.care.practice.listening import listen
from handsfree.care.practice.session import Practice
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.judge import judge
from handsfree.phrases.readings import by_reading, reading
from handsfree.phrases.spotting import spotted
from handsfree.ports import Sentences
from handsfree.signals import REPORT, Gate, Heard, Utterance
from tests.dialogues import shipped
from tests.ears import vosk
from tests.voice.hearing import Samples, Sound
from tests.voice.practice import BEGAN, lexicon
from tests.voice.sound_shape import clip, silence
from tests.voice.synthesisers import VOICES

NATURAL = Path(__file__).parents[1] / "phrases" / "natural.toml"

BEFORE = ("okay so now", "right and then", "well", "and now as you can see", "so the next thing is")
AFTER = ("and then we go on", "and that is fine", "as it should be", "and now we can go on", "so far so good")
"""Other talk around a way of saying a step."""

APART_S = 2.5


@dataclass(slots=True)
class Tally:
    """missed: rule and sentence of each way that was not found. false: the same of each false tick."""

    ways: int = 0
    ticks: int = 0
    missed: list[tuple[str, str]] = field(default_factory=list)
    false: list[tuple[str, str]] = field(default_factory=list)

    def line(self, name: str) -> str:
        found = 100 * (self.ways - len(self.missed)) / max(self.ways, 1)
        wrong = 100 * len(self.false) / max(self.ticks, 1)
        ticks = f"{self.ticks:>4} ticks, {wrong:4.1f} % false"
        return f"{name:<14} {self.ways:>4} ways, {found:5.1f} % found; {ticks}"


def ways(per_rule: int) -> Iterator[tuple[str, str]]:
    """The rule by which a step is told, and a sentence around one way of saying it."""
    around = zip(cycle(BEFORE), cycle(AFTER), strict=False)
    tables = tomllib.loads(NATURAL.read_text("utf-8")).values()
    for rule in dict.fromkeys(rule for step in shipped().steps for rule in step.rules):
        every = [one for rules in tables for key in rules if key.split()[0] == rule for one in rules[key]]
        own = list(dict.fromkeys(filter(_stands, every)))
        for one in own[:: max(1, len(own) // per_rule)][:per_rule]:
            before, after = next(around)
            yield rule, f"{before} {one} {after}"


def _stands(words: str) -> bool:
    """Whether a way is more than one word: a lone word counts alone only."""
    return len(words.split()) > 1 and not any(letter.isdigit() for letter in words)


def ticked(sentences: Sentences, strict: Sentences, sound: Sound) -> Iterator[frozenset[str]]:
    """The rules of each answer that is heard in a sound."""
    door = SoundDoor(Samples(sound), vosk(), SoundClock(BEGAN))
    door.open(sentences, Gate.OPEN, "")
    while isinstance(utterance := door.next(None), Utterance):
        outcome = judge(strict, utterance, means=by_reading)
        if isinstance(outcome, Heard) and outcome.command != REPORT:
            continue
        for one in spotted(strict, utterance, reading):
            yield frozenset((one.node.rule, *one.also))


def measured(voice: str, per_rule: int) -> Tally:
    """Every way of every step, said in one voice."""
    allowed = listen(Practice(shipped(), BEGAN))
    words, tally = lexicon(vosk()), Tally()
    sentences, strict = words.sentences(allowed), words.grammar(allowed)
    for rule, said in ways(per_rule):
        sound = np.concatenate((silence(1.0), clip(VOICES[voice].speak(said)), silence(APART_S)))
        heard = list(ticked(sentences, strict, sound))
        tally.ways += 1
        tally.ticks += len(heard)
        right = next((one for one in heard if rule in one), None)
        if right is None:
            tally.missed.append((rule, said))
        else:
            heard.remove(right)
        tally.false += [(" ".join(sorted(one)), said) for one in heard]
    return tally


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How well talk-through is heard.")
    parser.add_argument("--voices", default="piper_joe,flite_slt,festival_slt")
    parser.add_argument("--per-rule", type=int, default=4)
    options = parser.parse_args()
    for voice in options.voices.split(","):
        tally = measured(voice, options.per_rule)
        print(tally.line(voice), flush=True)
        for what, every in (("missed", tally.missed), ("false", tally.false)):
            for one, other in every:
                print(f"    {what}: {one} | {other}")


if __name__ == "__main__":
    main()
