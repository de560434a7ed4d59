"""The only place that asks the machine what time it is."""

from __future__ import annotations

import time
from datetime import UTC, datetime, timedelta

_WAITING_CLOCK = getattr(time, "CLOCK_BOOTTIME", None)
"""Goes on while the machine sleeps, where the system has it; `time.monotonic` stops (from memory)."""


def _steady_s() -> float:
    return time.monotonic() if _WAITING_CLOCK is None else time.clock_gettime(_WAITING_CLOCK)


class SteadyClock:
    """UTC read once at the start, then counted on by a clock that nobody can set."""

    def __init__(self) -> None:
        self._started_at = datetime.now(UTC)
        self._started_s = _steady_s()

    def now(self) -> datetime:
        """Aware UTC time that never goes back."""
        return self._started_at + timedelta(seconds=_steady_s() - self._started_s)


class SoundClock:
    """Time that passes by being told, as the sound of a recording does: for recordings, demo and tests."""

    def __init__(self, start: datetime) -> None:
        self._now = start

    def now(self) -> datetime:
        """Aware UTC time that never goes back."""
        return self._now

    def advance(self, seconds: float) -> None:
        """Let time pass; a negative number counts as none."""
        self._now += timedelta(seconds=max(0.0, seconds))


class SimulatedClock:
    """Time of a simulated machine, whose wall clock can be set.

    A program that runs does not see that, as with SteadyClock; one that is started afterwards does.
    """

    def __init__(self, start: datetime) -> None:
        self._start, self._passed_s, self._set_by_s, self._seen_s = start, 0.0, 0.0, 0.0

    @property
    def passed_s(self) -> float:
        """Seconds since the start, whatever the wall clock shows."""
        return self._passed_s

    def now(self) -> datetime:
        """Aware UTC time as the running program sees it."""
        return self._start + timedelta(seconds=self._passed_s + self._seen_s)

    def passed_s_at(self, at: datetime) -> float:
        """How much time will have passed when `now` reads `at`."""
        return (at - self._start).total_seconds() - self._seen_s

    def pass_to(self, passed_s: float) -> None:
        """Let time pass until so much has passed; nothing where it has."""
        self._passed_s = max(self._passed_s, passed_s)

    def set_wall(self, by_s: float) -> None:
        """Set the wall clock forward, or back by a negative number."""
        self._set_by_s += by_s

    def restart(self) -> None:
        """Start the program anew: it reads the wall clock."""
        self._seen_s = self._set_by_s


def utc_offset_min() -> int:
    """Minutes that local time is ahead of UTC, here and now."""
    offset = datetime.now().astimezone().utcoffset()
    return round(offset.total_seconds() / 60) if offset else 0
