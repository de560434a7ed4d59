"""One reminder: when it is due, how often it was said, and whether it was answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from types import MappingProxyType

OWN = "own"
"""The kind of the user's own timers."""


URGENT, SOON, IN_TIME = (60,), (300, 180, 120), (900,)
"""Ladders: seconds after which a reminder comes again that nobody answered, the last of them for ever. Too
many make people switch a thing off, so only what cannot wait is hurried (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of reminder. clock: what it is counted from. ladder: URGENT, SOON or IN_TIME.

    by_finding: answered only by what was found. comes_again: answered, its clock begins anew.
    """

    clock: str
    ladder: tuple[int, ...]
    by_finding: bool = False
    comes_again: bool = False


KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "bag_empty": Kind("bag", URGENT),
        "site": Kind("site", SOON, by_finding=True, comes_again=True),
        "bag_low": Kind("bag", SOON),
        OWN: Kind("", SOON),
        "recount": Kind("count", IN_TIME, by_finding=True, comes_again=True),
        "emergency_line": Kind("catheter", IN_TIME),
        "hang": Kind("bag", IN_TIME),
        "tubing": Kind("tubing", IN_TIME),
        "tubing_may": Kind("tubing", IN_TIME),
        "catheter": Kind("catheter", IN_TIME),
    }
)
"""By name, as a policy names them; the most urgent first."""

LOOKED = frozenset(kind.clock for kind in KINDS.values() if kind.by_finding)
"""Clocks that begin anew whenever somebody looked: what says so can be said as long as they run."""

_ORDER = tuple(KINDS)

FIRST_COUNT = "first_count"
"""In a policy: how long after the clamp was set drops are counted again; from then on `recount` holds."""

CLOCKS = frozenset({"site", "bag", "tubing", "catheter", "flow", "count"})
"""What a step or a finding can begin to be counted from."""


TOLD = ("bag", "reminders", "problems", "score")
"""What a step can tell when it is opened: see asked.py."""


@dataclass(frozen=True, slots=True)
class Reminder:
    """name: of the user's own. next: when it is said next. said: how often it was said."""

    kind: str
    due: datetime
    next: datetime
    name: str = ""
    said: int = 0
    answered: bool = False

    @property
    def key(self) -> tuple[str, str, datetime]:
        """What tells it from every other."""
        return self.kind, self.name, self.due

    @property
    def latched(self) -> bool:
        """Whether it was said and waits for its answer."""
        return self.said > 0 and not self.answered

    @property
    def urgent(self) -> bool:
        """Whether it is said in silence too, and between a read-back and its answer."""
        return KINDS[self.kind].ladder is URGENT

    @property
    def rank(self) -> tuple[int, datetime]:
        """In which order those that are due at once are said."""
        return _ORDER.index(self.kind), self.due

    def again(self, at: datetime) -> datetime:
        """When it comes again, having been said once more now."""
        ladder = KINDS[self.kind].ladder
        return at + timedelta(seconds=ladder[min(self.said, len(ladder) - 1)])
