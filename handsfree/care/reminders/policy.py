"""When something is to be remembered: intervals, each with its source, as a policy has them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

ALWAYS = ""
"""The case of an interval that holds for everybody."""


RUNNING = "running"
"""The case of an interval that holds while something runs in: nobody has to say so."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A kind of reminder falls due `after_s` seconds after its clock began, in a case ("child") or always."""

    kind: str
    case: str
    after_s: int
    source: str
    edition: str


def shortest(intervals: Iterable[Interval], kind: str, cases: Iterable[str]) -> timedelta | None:
    """The shortest interval of a kind among the cases that hold; None where the policy has none."""
    holds = {ALWAYS, *cases}
    lengths = [one.after_s for one in intervals if one.kind == kind and one.case in holds]
    return timedelta(seconds=min(lengths)) if lengths else None


def over(base: Iterable[Interval], local: Iterable[Interval]) -> tuple[Interval, ...]:
    """Two policies as one: what the local one says of a kind in a case replaces what the other says of it."""
    ours = {(one.kind, one.case): one for one in local}
    kept = (one for one in base if (one.kind, one.case) not in ours)
    return (*kept, *ours.values())
