"""What is to be remembered, and what became of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class ReminderSet:
    """A reminder will be due. Of all kinds but the user's own it takes the place of the one before.

    after_s: as the user said it; 0 where it follows from the policy. sound: path of the clip of what it is
    for, where no grammar holds that.
    """

    kind: str
    due: datetime
    name: str = ""
    after_s: int = 0
    sound: str = ""


@dataclass(frozen=True, slots=True)
class ReminderDropped:
    """Nothing is left that the reminder could be counted from."""

    kind: str


@dataclass(frozen=True, slots=True)
class ReminderDue:
    """A reminder was said. times: how often now. late_s: how long after it was due."""

    kind: str
    name: str
    due: datetime
    times: int
    late_s: int


@dataclass(frozen=True, slots=True)
class ReminderAnswered:
    """how: "done", "not needed" or "found". reason: why it is not needed. sound: its clip, if unverified."""

    kind: str
    name: str
    due: datetime
    how: str
    reason: str = ""
    sound: str = ""


@dataclass(frozen=True, slots=True)
class ReminderPostponed:
    """It comes again at `until`."""

    kind: str
    name: str
    due: datetime
    until: datetime


@dataclass(frozen=True, slots=True)
class BagHung:
    """Another bag runs. volume_ml: what is in it."""

    volume_ml: Fraction


@dataclass(frozen=True, slots=True)
class LevelReported:
    """So much is left in the bag, as the user sees it. left_s: how long it lasts."""

    left_ml: Fraction
    left_s: int


@dataclass(frozen=True, slots=True)
class TubingChanged:
    """Another set hangs."""


@dataclass(frozen=True, slots=True)
class CaseTold:
    """Something about patient, line or fluid on which intervals depend: "child", "vesicant"."""

    case: str


@dataclass(frozen=True, slots=True)
class UpcomingTold:
    """Which reminder is next: asked for. kind: empty where none is. left_s: below zero where overdue."""

    kind: str
    name: str
    left_s: int


@dataclass(frozen=True, slots=True)
class RemindersTold:
    """All that is to be remembered, the next first: handed over."""

    due: tuple[UpcomingTold, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """Something that was reported of a line, and when last."""

    finding: str
    at: datetime


@dataclass(frozen=True, slots=True)
class ProblemsTold:
    """What was found, which steps were never closed, and which in spite of a stop: handed over."""

    found: tuple[Found, ...]
    open_steps: tuple[str, ...]
    gone_on_at: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BagTold:
    """How much is left in the bag, and how long it lasts: asked for. given_ml: what has run in, if asked."""

    left_ml: Fraction
    left_s: int
    given_ml: Fraction | None = None
