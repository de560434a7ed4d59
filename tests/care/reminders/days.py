"""Simulated days: a session that time passes for, and somebody who answers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import cache

from handsfree.care import events as e
from handsfree.care.commands import Answer, Command, Say, Tick
from handsfree.care.decide import decide, resume
from handsfree.care.lines import evolve_lines
from handsfree.care.session import Session
from handsfree.shelf import policy_from
from handsfree.signals import REPORT
from tests.dialogues import WHOLE, told


@cache
def running(policy: str = "cdc_2011") -> Session:
    """1000 mL over 8 h; the line runs since 08:01."""
    return told(*WHOLE, intervals=policy_from(policy).intervals).session


BEGUN = datetime.fromisoformat("2031-05-04T08:01:00Z")


@dataclass
class Day:
    """A session that time passes for, with all that happened in it."""

    session: Session = field(default_factory=running)
    now: datetime = BEGUN
    kept: list[e.Recorded] = field(default_factory=list)

    def take(self, events: Iterable[e.Event]) -> None:
        """Let events happen now."""
        for event in events:
            self.session = evolve_lines(self.session, event, self.now)
            self.kept.append(e.Recorded(self.now, event))

    def do(self, command: Command) -> None:
        """Bring a command, and whatever is due with it."""
        self.take(decide(self.session, command, self.now))

    def wait(self, seconds: float) -> None:
        """Let time pass as the corridor does: from deadline to deadline."""
        until = self.now + timedelta(seconds=seconds)
        while (due := self.session.deadline()) is not None and due <= until:
            self.now = max(self.now, due)
            self.do(Tick())
        self.now = until

    def cut(self, seconds: float) -> None:
        """Off for so long, and on again; a read-back that was open is said to its end."""
        self.now += timedelta(seconds=seconds)
        self.take(resume(self.session, e.SessionResumed("typed", False), self.now))

    def said(self) -> list[tuple[datetime, e.ReminderDue]]:
        """The reminders that were said, and when."""
        return [(one.at, one.event) for one in self.kept if isinstance(one.event, e.ReminderDue)]


def answers(rule: str, value: str = "") -> Say:
    return Say(REPORT, rule, (Answer(rule, value, rule),))
