"""How late reminders are spoken on the machine's own clock, with all its processors busy.

    python -m tests.bench.reminder_lateness [--reminders 200] [--busy 2]

A real session (corridor, grammars, database on the disk) waits at its door while so many other processes do
nothing but count. Ten timers of the user's own, as many as a busy session holds, fall due at uneven moments,
about two a second; then the next session begins. Measured is the time from when one was due to when its
sentence, already committed, is handed to the voice: synthesis apart.
Prints the distribution; exits with 1 where a reminder is missing or comes later than 250 ms.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from fractions import Fraction
from math import ceil
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from handsfree.care import events as e
from handsfree.care.reminders.reminder import Reminder
from handsfree.care.session import Session
from handsfree.clock import SteadyClock
from handsfree.conducts.guide import GUIDE
from handsfree.hear.typed_door import TypedDoor
from handsfree.keep.journal import SqlJournal
from handsfree.loop import Corridor
from handsfree.mouth import Mouth
from handsfree.record import Record
from handsfree.signals import Chime, Manner
from tests.care.reminders.days import running
from tests.dialogues import lexicon

PROMISED_S = 0.25
LONGEST_GAP_S = 1.0
AT_ONCE = 10


@dataclass
class Stopwatch:
    """A voice that takes no time, notes when it was asked to speak, and is done when all was said."""

    clock: SteadyClock
    waits_for: int
    done: Callable[[], None]
    at: dict[str, datetime] = field(default_factory=dict)

    def say(self, text: str) -> float:
        """Note the moment of each reminder's name."""
        for name in text.rstrip(".").split(". "):
            self.at.setdefault(name, self.clock.now())
        if len([name for name in self.at if name.startswith("Timer ")]) == self.waits_for:
            self.done()
        return 0.0

    def chime(self, chime: Chime) -> float:
        """Nothing is chimed."""
        del chime
        return 0.0

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Nothing ticks."""

    def speak_as(self, manner: Manner) -> None:
        """It takes no time in any manner."""

    def hush(self) -> None:
        """Nothing is left to be said."""


@contextmanager
def busy(processes: int) -> Iterator[None]:
    """So many processes that do nothing but count."""
    with ExitStack() as stack:
        for _ in range(processes):
            one = subprocess.Popen([sys.executable, "-c", "while True: pass"])
            stack.callback(one.wait)
            stack.callback(one.kill)
        yield


def waiting(clock: SteadyClock, seed: int) -> Session:
    """A line that runs, with some timers of the user's own, the first due in two seconds."""
    chance, due, timers = Random(seed), clock.now() + timedelta(seconds=2), list[Reminder]()
    for number in range(AT_ONCE):
        timers.append(Reminder("own", due, due, name=f"timer {number}"))
        due += timedelta(seconds=chance.uniform(0, LONGEST_GAP_S))
    return replace(running("common"), intervals=(), reminders=tuple(timers), since={}, bag=None)


def warmed(session: Session) -> None:
    """Make the grammars that the session begins with, as a session that has run for a while has them."""
    lexicon().sentences(GUIDE.listen(session, False))
    lexicon().prepare((GUIDE.listen(session, False), *GUIDE.ahead(session, False)))


def lateness_s(folder: Path, seed: int) -> list[float]:
    """Seconds by which each reminder of one session was late."""
    clock = SteadyClock()
    warmed(waiting(clock, seed))
    reading, writing = os.pipe()
    closes = os.fdopen(writing, "wb")
    session = waiting(clock, seed)
    watch = Stopwatch(clock, AT_ONCE, closes.close)
    journal = SqlJournal(folder)
    journal.probe()
    record = Record(journal, "lateness")
    corridor = Corridor(
        GUIDE,
        session,
        lexicon(),
        TypedDoor(os.fdopen(reading, "rb"), clock),
        Mouth(watch, clock, deaf=False),
        clock,
        record.keep,
    )
    corridor.run((e.Told("repeat"),))
    late = [(watch.at[name(one)], one.due) for one in session.reminders if name(one) in watch.at]
    return [(said - due).total_seconds() for said, due in late]


def name(reminder: Reminder) -> str:
    """How a timer is called when it is said."""
    return reminder.name.capitalize()


def main() -> int:
    """Measure, and print the distribution in milliseconds."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--reminders", type=int, default=200)
    given.add_argument("--busy", type=int, default=os.cpu_count())
    asked = given.parse_args()
    lexicon()
    with TemporaryDirectory() as folder, busy(asked.busy):
        rounds = range(ceil(asked.reminders / AT_ONCE))
        late = sorted(s for number in rounds for s in lateness_s(Path(folder) / str(number), number))
    at = {part: late[min(len(late) - 1, int(len(late) * part))] * 1000 for part in (0.5, 0.9, 0.99)}
    shown = ", ".join(f"{part:.0%} within {ms:.1f} ms" for part, ms in at.items())
    print(f"{len(late)} of {len(rounds) * AT_ONCE} reminders, {asked.busy} processes counting: {shown},")
    print(f"the latest {late[-1] * 1000:.1f} ms; {sum(s > PROMISED_S for s in late)} later than 250 ms")
    return 1 if len(late) < len(rounds) * AT_ONCE or late[-1] > PROMISED_S else 0


if __name__ == "__main__":
    sys.exit(main())
