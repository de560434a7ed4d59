"""The beat at the drip chamber, and drops counted in a span of time."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class BeatSet:
    """It ticks once a drop from now on, so many a minute."""

    drops_per_min: Fraction


@dataclass(frozen=True, slots=True)
class BeatStopped:
    """It ticks no more."""


@dataclass(frozen=True, slots=True)
class CountBegun:
    """Drops are counted for so many seconds, from when that was said to its end."""

    over_s: int


@dataclass(frozen=True, slots=True)
class CountEnded:
    """The time is over: how many were there?"""

    over_s: int


@dataclass(frozen=True, slots=True)
class CountDropped:
    """Nothing is counted any more. why: "told" when the number was said, "lapsed" when nobody said it."""

    why: str
