"""When an infusion starts and ends: over midnight, and across a change of the clock.

A moment without a zone is read off a clock that nobody changes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from fractions import Fraction

from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import half_up
from handsfree.words import worded

MINUTE_US = 60_000_000
DAY_MIN = 24 * 60
WRITTEN_MIN = Fraction(1)
"""By how much the time between two times of day may be off, each written to the minute."""


@dataclass(frozen=True, slots=True)
class Span:
    """What is known of start and end. end: where the start is known, its time of day counts, not its day."""

    start: datetime | None = None
    end: datetime | None = None

    def length_min(self) -> Fraction | Refused | None:
        """From the start to the next time that the clock shows the end; None where one is not known."""
        if self.start is None or self.end is None:
            return None
        end = next_time(self.start, self.end.time())
        return end if isinstance(end, Refused) else minutes_between(self.start, end)

    def times(self, time_min: Fraction | None) -> Mapping[str, str | int] | Refused:
        """The one that was not known, with its day from the other; refused where the two do not fit."""
        wrong = next((wrong for one in (self.start, self.end) if one and (wrong := unclear(one))), None)
        if wrong or time_min is None:
            return wrong or {}
        if self.start is None:
            return {} if self.end is None else _told("starts", self.end, later(self.end, -time_min))
        end = later(self.start, time_min)
        if self.end and not _same_time(end, self.end):
            return Refused(
                worded(
                    "From {start:%H:%M} it would end at {end:%H:%M}, not at {wanted:%H:%M}.",
                    start=self.start,
                    end=end,
                    wanted=self.end,
                )
            )
        return _told("ends", self.start, end)


UNTIMED = Span()


def _told(what: str, one: datetime, other: datetime) -> Mapping[str, str | int]:
    return {f"{what}_at": f"{other:%H:%M}", f"{what}_day": (other.date() - one.date()).days}


def _same_time(one: datetime, other: datetime) -> bool:
    apart_min = (one.hour - other.hour) * 60 + one.minute - other.minute
    return min(apart_min % DAY_MIN, -apart_min % DAY_MIN) <= WRITTEN_MIN


def later(moment: datetime, by_min: Fraction) -> datetime:
    """So many minutes later (below zero: earlier), in the same zone, rounded half up to the minute once."""
    steady = _steady(moment)
    into_minute_min = Fraction(steady.second * 1_000_000 + steady.microsecond, MINUTE_US)
    whole = steady.replace(second=0, microsecond=0)
    end = whole + timedelta(minutes=half_up(into_minute_min + by_min))
    return end.astimezone(moment.tzinfo) if moment.tzinfo else end


def minutes_between(start: datetime, end: datetime) -> Fraction:
    """How much time passes from one to the other, exactly."""
    return Fraction((_steady(end) - _steady(start)) // timedelta(microseconds=1), MINUTE_US)


def next_time(start: datetime, clock: time) -> datetime | Refused:
    """The first moment after the start at which the clock shows that time."""
    for day in range(3):
        moment = datetime.combine(start.date() + timedelta(days=day), clock, start.tzinfo)
        wrong = unclear(moment)
        if wrong:
            return wrong
        if minutes_between(start, moment) > 0:
            return moment
    raise AssertionError("every time of day comes within two days")


def unclear(moment: datetime) -> Refused | None:
    """Why a time of day is not one moment: the clock is changed, and it comes twice or never."""
    if moment.tzinfo is None:
        return None
    shown = f"{moment:%H:%M on %Y-%m-%d}"
    back = moment.astimezone(UTC).astimezone(moment.tzinfo)
    if back.replace(tzinfo=None) != moment.replace(tzinfo=None):
        return Refused(
            worded("{time} never comes: the clock is put forward. Give another time, or use UTC.", time=shown)
        )
    if moment.replace(fold=1).utcoffset() != moment.replace(fold=0).utcoffset():
        return Refused(
            worded("{time} comes twice: the clock is put back. Give another time, or use UTC.", time=shown)
        )
    return None


def _steady(moment: datetime) -> datetime:
    return moment.astimezone(UTC) if moment.tzinfo else moment
