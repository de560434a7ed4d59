"""Start and end: over midnight, and where the clock is changed."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.span import Span, later, minutes_between, next_time

BERLIN = ZoneInfo("Europe/Berlin")
NEW_YORK = ZoneInfo("America/New_York")

LATER = (
    ("2031-05-04T10:00:00", "800/3", "2031-05-04T14:27"),
    ("2031-05-04T10:00:00", "1/2", "2031-05-04T10:01"),
    ("2031-05-04T10:00:29", "60", "2031-05-04T11:00"),
    ("2031-05-04T10:00:30", "60", "2031-05-04T11:01"),
    ("2031-12-31T23:30:00", "60", "2032-01-01T00:30"),
    ("2031-05-04T06:00:00", "-480", "2031-05-03T22:00"),
)


@pytest.mark.parametrize(("start", "by_min", "end"), LATER)
def test_the_end_is_rounded_once(start: str, by_min: str, end: str) -> None:
    """Start and time are added exactly, then rounded half up to the minute."""
    assert datetime.fromisoformat(end) == later(datetime.fromisoformat(start), Fraction(by_min))


CHANGED = (
    (
        "the clock is put back in the night: 9 h from 22:00 show 06:00",
        BERLIN,
        "2026-10-24T22:00",
        540,
        "06:00",
    ),
    ("the clock is put forward: 7 h from 22:00 show 06:00", BERLIN, "2026-03-28T22:00", 420, "06:00"),
    ("half past two comes twice, the second is later", BERLIN, "2026-10-25T01:00", 150, "02:30"),
    ("two weeks later in New York", NEW_YORK, "2026-10-31T22:00", 540, "06:00"),
    ("an ordinary night", BERLIN, "2026-10-26T22:00", 480, "06:00"),
)


@pytest.mark.parametrize(("why", "zone", "start", "by_min", "clock"), CHANGED)
def test_a_change_of_the_clock_takes_no_time(
    why: str, zone: ZoneInfo, start: str, by_min: int, clock: str
) -> None:
    """An infusion runs on while the clock is changed; its end is what the clock shows then."""
    end = later(datetime.fromisoformat(start).replace(tzinfo=zone), Fraction(by_min))

    assert clock == f"{end:%H:%M}", why


@pytest.mark.parametrize(("why", "zone", "start", "by_min", "clock"), CHANGED)
def test_times_of_day_tell_how_long(why: str, zone: ZoneInfo, start: str, by_min: int, clock: str) -> None:
    """And back: from the start to the time that the clock shows, unless that comes twice."""
    begun = datetime.fromisoformat(start).replace(tzinfo=zone)
    end = next_time(begun, time.fromisoformat(clock))

    if isinstance(end, Refused):
        assert "twice" in why
    else:
        assert by_min == minutes_between(begun, end), why


UNCLEAR = (
    ("2026-03-29T02:30", "02:30 on 2026-03-29 never comes: the clock is put forward."),
    ("2026-10-25T02:30", "02:30 on 2026-10-25 comes twice: the clock is put back."),
)


@pytest.mark.parametrize(("start", "reason"), UNCLEAR)
def test_a_time_that_is_not_one_moment_is_asked(start: str, reason: str) -> None:
    """What comes twice or never is not chosen, but asked."""
    told = Span(datetime.fromisoformat(start).replace(tzinfo=BERLIN)).times(Fraction(60))

    assert isinstance(told, Refused)
    assert reason in told.reason


moments = st.datetimes(
    datetime(2020, 1, 1), datetime(2035, 1, 1), timezones=st.sampled_from([BERLIN, NEW_YORK])
)


@settings(deadline=None)
@given(start=moments, minutes=st.integers(-5000, 5000))
def test_the_end_is_that_of_utc(start: datetime, minutes: int) -> None:
    """Whatever the zone and the day, the end is so many minutes later in UTC, as Python reckons it."""
    start = start.replace(second=0, microsecond=0)
    end = later(start, Fraction(minutes))

    assert start.astimezone(UTC) + timedelta(minutes=minutes) == end.astimezone(UTC)
    assert minutes == minutes_between(start, end)
