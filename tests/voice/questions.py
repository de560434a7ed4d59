"""How well Vosk hears questions about numbers, as Markdown.

    python -m tests.voice.questions [--conditions quiet "white 15"]

Every recorded question is heard with all that can be asked and answered in the phase of the equipment, in
quiet, and, by turns, in one of three noises over which speech stands by 15 dB. What is wrong would be
answered with other numbers; nothing of it acts, for an answer is read back before it is used.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from handsfree.ports import Ear
from handsfree.signals import Heard
from handsfree.wiring import make_ear
from tests.voice import moments
from tests.voice.accuracy import VERDICTS, noisy
from tests.voice.hearing import hear, read, verdict
from tests.voice.manifest import Fixture, below

CONDITIONS = ("quiet", "white 15", "engine 15", "wind 15")
"""Kind of noise, and by how many decibels speech is louder."""

PHASE = "equipment"
"""The set is told here: of all phases the one whose answers are most like questions."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What became of one recorded question. heard: the sentence that was taken, empty where none was."""

    fixture: Fixture
    condition: str
    verdict: str
    heard: str


def recorded(condition: str) -> tuple[Fixture, ...]:
    """The recordings that are heard in a condition: all in quiet, every third in a noise."""
    every = below("questions")
    return every if condition == "quiet" else every[CONDITIONS.index(condition) - 1 :: len(CONDITIONS) - 1]


def measure(ear: Ear, fixtures: Iterable[Fixture], condition: str) -> list[Asked]:
    """Hear questions in one condition."""
    moment = moments.with_questions(moments.of_phase(PHASE))
    heard_by, written = moments.listened(moment, ear.knows), moments.compiled(moment)
    found = []
    for one in fixtures:
        said = hear(ear, heard_by, noisy(read(one.path), condition))
        taken = [part.outcome.text for part in said if isinstance(part.outcome, Heard)]
        found.append(Asked(one, condition, verdict(written, one.words, said), " | ".join(taken)))
    return found


def table(found: Iterable[Asked], conditions: Sequence[str]) -> str:
    """How many were right, wrong, asked, refused, by voice and condition."""
    counted = Counter((one.fixture.voice, one.condition, one.verdict) for one in found)
    voices = dict.fromkeys(voice for voice, _, _ in counted)
    head = ["voice", *(f"{name} dB" if " " in name else name for name in conditions)]
    rows = [[voice, *(_cell(counted, (voice,), condition) for condition in conditions)] for voice in voices]
    rows.append(["**all**", *(_cell(counted, voices, condition) for condition in conditions)])
    return "\n".join(f"| {' | '.join(line)} |" for line in (head, ["---"] * len(head), *rows))


def _cell(counted: Counter[tuple[str, str, str]], voices: Iterable[str], condition: str) -> str:
    numbers = {each: sum(counted[voice, condition, each] for voice in voices) for each in VERDICTS}
    return " / ".join(map(str, numbers.values()))


def main() -> None:
    """Measure and print: right, wrong, asked, refused by voice; then what was taken wrongly."""
    parser = argparse.ArgumentParser(description="How well Vosk hears recorded questions.")
    parser.add_argument("--conditions", nargs="+", choices=CONDITIONS, default=CONDITIONS)
    conditions = parser.parse_args().conditions
    ear = make_ear("vosk")
    found = [one for each in conditions for one in measure(ear, recorded(each), each)]
    print(table(found, conditions))
    for one in found:
        if one.verdict == "wrong":
            print(f"- {one.condition}: {one.fixture.words}: {one.heard}")


if __name__ == "__main__":
    main()
