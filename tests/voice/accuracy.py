"""How well an ear hears the fixtures, as Markdown.

    python -m tests.voice.accuracy --ear vosk|sphinx [--open all|phase] [--conditions quiet "white 20"]

Every utterance is heard with all phases open at once, or with its own phase, as in a session; in quiet, and
under white noise and babble at 20 and 10 dB. The babble is made of the refusals that are talk.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from time import process_time

import numpy as np

from handsfree.ports import Ear
from handsfree.signals import SAMPLE_RATE
from handsfree.wiring import make_ear
from tests.voice import moments
from tests.voice.hearing import Said, Sound, hear, read, verdict
from tests.voice.manifest import Fixture, below
from tests.voice.noises import at_level, engine, white, wind
from tests.voice.sound_shape import LEVEL_DB

CONDITIONS = ("quiet", "white 20", "white 10", "babble 20", "babble 10")
"""Kind of noise, and by how many decibels speech is louder."""

VERDICTS = ("right", "wrong", "asked", "refused")

_TALKERS = 6


@dataclass(frozen=True, slots=True)
class Result:
    """What one fixture came to. used_s: computing time. sound_s: length."""

    fixture: Fixture
    verdict: str
    said: tuple[Said, ...]
    used_s: float
    sound_s: float


def measure(
    ear: Ear, fixtures: Iterable[Fixture], condition: str = "quiet", opened: str = "all"
) -> list[Result]:
    """Hear fixtures in one condition. opened: "all" phases at once, or the "phase" of each sentence."""
    return [_measured(ear, one, condition, opened) for one in fixtures]


def _measured(ear: Ear, fixture: Fixture, condition: str, opened: str) -> Result:
    listen = moments.of_all() if opened == "all" else moments.of_words(fixture.sentence)
    grammar = moments.compiled(listen, ear.knows)
    sound = noisy(read(fixture.path), condition)
    began = process_time()
    said = hear(ear, grammar, sound)
    used_s = process_time() - began
    came_to = verdict(moments.compiled(listen), fixture.sentence, said)
    return Result(fixture, came_to, said, used_s, len(sound) / SAMPLE_RATE)


def noisy(sound: Sound, condition: str) -> Sound:
    """Sound with noise under it."""
    if condition == "quiet":
        return sound
    kind, louder_db = condition.split()
    seconds = len(sound) / SAMPLE_RATE
    noise = np.resize(_COMPUTED[kind](seconds) if kind in _COMPUTED else _babble(), len(sound))
    return np.clip(sound + at_level(noise, LEVEL_DB - float(louder_db)), -1, 1)


_COMPUTED = {"white": white, "engine": engine, "wind": wind}


@cache
def _babble() -> Sound:
    talk = [one for one in below("utterances") if one.kind == "oov" and one.voice != "none"]
    parts = [read(one.path) for one in talk]
    talkers = [np.concatenate(parts[first::_TALKERS]) for first in range(_TALKERS)]
    shortest = min(map(len, talkers))
    return np.sum([one[:shortest] for one in talkers], axis=0, dtype=np.float32)


def counts(results: Iterable[Result]) -> Counter[str]:
    """How many of each verdict."""
    return Counter(one.verdict for one in results)


def report(results: dict[str, list[Result]]) -> str:
    """Two tables: what was heard of each voice, and of other talk; and how long the user waits."""
    head = ["voice", *(f"{name} dB" if " " in name else name for name in results)]
    voices = dict.fromkeys(one.fixture.voice for one in next(iter(results.values())) if one.fixture.sentence)
    rows = [[voice, *(_cell(_spoken(found, voice)) for found in results.values())] for voice in voices]
    rows.append(["**all**", *(_cell(_spoken(found)) for found in results.values())])
    rows.append(["refusals heard", *(_false(found) for found in results.values())])
    waits = [["wait, median / 90 %", *(_waits(found) for found in results.values())]]
    waits.append(["computing, of real time", *(_real_time(found) for found in results.values())])
    return "\n\n".join((f"Each cell: {', '.join(VERDICTS)}.", _table(head, rows + waits)))


def _spoken(found: list[Result], voice: str = "") -> list[Result]:
    return [one for one in found if one.fixture.sentence and voice in ("", one.fixture.voice)]


def _cell(found: list[Result]) -> str:
    number = counts(found)
    return " / ".join(str(number[verdict]) for verdict in VERDICTS)


def _false(found: list[Result]) -> str:
    other = [one for one in found if not one.fixture.sentence]
    return f"{counts(other)['wrong']} of {len(other)}"


def _waits(found: list[Result]) -> str:
    waits = [one.said[0].wait_s for one in _spoken(found) if one.verdict == "right"]
    return f"{np.median(waits):.2f} s / {np.quantile(waits, 0.9):.2f} s" if waits else "-"


def _real_time(found: list[Result]) -> str:
    return f"{sum(one.used_s for one in found) / sum(one.sound_s for one in found):.2f}"


def _table(head: list[str], rows: list[list[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How well an ear hears the fixtures.")
    parser.add_argument("--ear", choices=("vosk", "sphinx"), required=True)
    parser.add_argument("--conditions", nargs="+", choices=CONDITIONS, default=CONDITIONS)
    parser.add_argument("--open", choices=("all", "phase"), default="all")
    given = parser.parse_args()
    ear, fixtures = make_ear(given.ear), below("utterances")
    results = {name: measure(ear, fixtures, name, given.open) for name in given.conditions}
    print(report(results))
    for one in next(iter(results.values())):
        if one.verdict != ("right" if one.fixture.sentence else "refused"):
            heard = " | ".join(" ".join(said.utterance.alternatives[0].words) for said in one.said)
            print(f"- {one.verdict}: {one.fixture.file}: {heard}")


if __name__ == "__main__":
    main()
