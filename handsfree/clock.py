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


def utc_offset_min() -> int:
    """Minutes that local time is ahead of UTC, here and now."""
    offset = datetime.now().astimezone().utcoffset()
    return round(offset.total_seconds() / 60) if offset else 0
