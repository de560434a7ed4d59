"""An hour of what is no speech, to one ear: how much of it is accepted?

    python -m tests.bench.hour_of_noise [--ear vosk|sphinx] [--minutes 60]

Every kind of `tests/hear/odd_sounds.py` in turn, a minute of each, with all phases open at once, which is
harder than any moment of a session. Prints what was accepted or asked about, and a line for each kind.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from time import process_time

from handsfree.ports import Ear
from handsfree.signals import Ambiguous, Heard
from handsfree.wiring import make_ear
from tests.hear.odd_sounds import KINDS
from tests.voice import moments
from tests.voice.hearing import Said, hear


def accepted(ear: Ear, kind: str, number: int, seconds: float = 60.0) -> tuple[Said, ...]:
    """Every utterance in one piece of a kind, each judged."""
    return hear(ear, moments.compiled(moments.of_all(), ear.knows), KINDS[kind](seconds, number))


def _words(said: tuple[Said, ...]) -> Iterator[str]:
    for one in said:
        match one.outcome:
            case Heard() as heard:
                yield f"accepted: {heard.text} ({heard.confidence:.2f})"
            case Ambiguous(text):
                yield f"asked about: {text}"
            case _:
                pass


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="An hour of what is no speech.")
    parser.add_argument("--ear", choices=("vosk", "sphinx"), default="vosk")
    parser.add_argument("--minutes", type=int, default=60)
    given = parser.parse_args()
    ear, kinds = make_ear(given.ear), list(KINDS)
    utterances, accepts, used_s = Counter[str](), Counter[str](), dict.fromkeys(kinds, 0.0)
    for minute in range(given.minutes):
        kind = kinds[minute % len(kinds)]
        began = process_time()
        said = accepted(ear, kind, minute // len(kinds))
        used_s[kind] += process_time() - began
        utterances[kind] += len(said)
        accepts[kind] += sum(isinstance(one.outcome, Heard) for one in said)
        for words in _words(said):
            print(f"{kind}, minute {minute}: {words}", flush=True)
    print("| kind | minutes | utterances | accepted | of real time |\n| --- | --- | --- | --- | --- |")
    for place, kind in enumerate(kinds):
        minutes = len(range(place, given.minutes, len(kinds)))
        real_time = used_s[kind] / 60 / max(minutes, 1)
        print(f"| {kind} | {minutes} | {utterances[kind]} | {accepts[kind]} | {real_time:.4f} |")


if __name__ == "__main__":
    main()
