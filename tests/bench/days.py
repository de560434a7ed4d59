"""How long a simulated day takes, whether a month grows in memory, and how fast a long record is folded.

    python -m tests.bench.days [--days 30]

A whole session by the shipped checklist, then "site's fine" every hour; all other reminders are left to
themselves. Memory is what Python holds (tracemalloc) at the end of days 1, 10 and the last, on a journal that
forgets nothing but is not counted. Processor time, not that of the wall.
"""

from __future__ import annotations

import argparse
import gc
import itertools
import tracemalloc
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from handsfree.care import events as e
from handsfree.clock import SimulatedClock
from handsfree.hear.script import Moment, Spoken
from handsfree.hear.script_door import ScriptDoor, TimeUp
from handsfree.record import Kept, load
from handsfree.replay import Simulation, replay
from handsfree.rooms import Choices, Rooms
from handsfree.sessions import run_new
from handsfree.shelf import emergencies, policy_from
from handsfree.signals import Lapsed, Utterance
from handsfree.testing.dialogue import START
from handsfree.wiring import open_journal
from tests.dialogues import WHOLE, shipped

DAY_S, HOUR_S = 86_400, 3_600
EVENTS = 100_000


def moments(days: int) -> Iterator[Moment]:
    """The start of a line, word by word, and a look at it every hour."""
    at_s = 0.0
    for line in WHOLE:
        at_s += float(line) if line.startswith("+") else 10
        if not line.startswith("+"):
            yield Spoken(at_s, line, 1.0)
    for hour in range(1, days * 24):
        yield Spoken(at_s + hour * HOUR_S, "site's fine", 1.0)


class Silent:
    """A voice that keeps nothing."""

    def say(self, text: str) -> float:
        """Take no time."""
        return 0.0

    def hush(self) -> None:
        """Nothing is being said."""

    def chime(self, chime: object) -> float:
        """No sound."""
        return 0.0

    def beat(self, drops_per_min: object) -> None:
        """No sound."""

    def speak_as(self, manner: object) -> None:
        """In no manner."""


class Sampled:
    """A door that notes what Python holds at the end of some days."""

    def __init__(self, door: ScriptDoor, clock: SimulatedClock, days: list[int]) -> None:
        self._door, self._clock, self._days = door, clock, days
        self.held: dict[int, int] = {}
        self.open = door.open

    def next(self, until: datetime | None) -> Utterance | Lapsed:
        """As the door does."""
        if self._days and self._clock.passed_s >= self._days[0] * DAY_S - 60:
            gc.collect()
            self.held[self._days.pop(0)] = tracemalloc.get_traced_memory()[0]
        return self._door.next(until)


def day_s(folder: Path) -> float:
    """Seconds of processor that one simulated day takes, with what must be loaded for any."""
    begin = process_time()
    replay(
        Simulation(tuple(moments(1)), shipped(), START, DAY_S),
        Choices(folder, "typed", "printed", intervals=policy_from("common").intervals),
    )
    return process_time() - begin


def month(folder: Path, days: int) -> tuple[dict[int, int], Kept]:
    """What Python holds after days 1, 10 and the last; and the session as it was kept."""
    clock = SimulatedClock(START)
    door = ScriptDoor(moments(days), clock, days * DAY_S, lambda start_s, end_s, text: None)
    sampled = Sampled(door, clock, sorted({1, min(10, days), days}))
    rooms = Rooms(None, sampled, Silent(), clock, deaf=False, local_min=0)
    choices = Choices(folder, "typed", "printed", intervals=policy_from("common").intervals)
    tracemalloc.start()
    with suppress(TimeUp):
        run_new(shipped(), choices, rooms)
    tracemalloc.stop()
    journal = open_journal(folder, "")
    kept = load(journal, journal.sessions()[-1], emergencies())
    journal.close()
    return sampled.held, kept


def fold_s(kept: Kept) -> float:
    """Seconds of processor to fold EVENTS events: those of the session, over and over."""
    first, *others = kept.records
    many = [first, *itertools.islice(itertools.cycle(others), EVENTS - 1)]
    new = kept.conduct.new(kept.session.checklist, kept.started, first.at)
    begin = process_time()
    with suppress(LookupError):
        kept.conduct.fold(new, many)
    return process_time() - begin


def main() -> None:
    """Print all of it."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--days", type=int, default=30)
    days = given.parse_args().days
    with TemporaryDirectory() as folder:
        day_s(Path(folder) / "warm")
        print(f"a simulated day: {day_s(Path(folder) / 'day'):.2f} s", flush=True)
        held, kept = month(Path(folder) / "month", days)
        for day, size in held.items():
            print(f"held at the end of day {day}: {size / 1e6:.1f} MB")
        spoken = sum(isinstance(one.event, e.Announced) for one in kept.records)
        print(f"{len(kept.records)} events in {days} days, {spoken} of them sentences", flush=True)
        print(f"fold of {EVENTS} events: {fold_s(kept):.2f} s")


if __name__ == "__main__":
    main()
