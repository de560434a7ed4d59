"""Drops counted against time: what to count, and what a count tells."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

MINUTE_S = 60


@dataclass(frozen=True, slots=True)
class Count:
    """Drops seen to fall in a window of time.

    drops: whole, at least one. over_s: length of the window in seconds.
    """

    drops: int
    over_s: Fraction

    @property
    def drop_rate_per_min(self) -> Fraction:
        """Drops a minute that the count stands for."""
        return self.drops * self.one_drop_per_min

    @property
    def one_drop_per_min(self) -> Fraction:
        """By how many drops a minute one drop missed or doubled changes it."""
        return Fraction(MINUTE_S) / self.over_s

    def one_drop_ml_per_h(self, drop_factor_per_ml: Fraction) -> Fraction:
        """The same for the rate, in mL/h."""
        return ml_per_h(self.one_drop_per_min, drop_factor_per_ml)


def ml_per_h(drop_rate_per_min: Fraction, drop_factor_per_ml: Fraction) -> Fraction:
    """The rate that falls in so many drops."""
    return drop_rate_per_min * 60 / drop_factor_per_ml


def seconds_per_drop(drop_rate_per_min: Fraction) -> Fraction:
    """From one drop to the next: the beat for the ear."""
    return MINUTE_S / drop_rate_per_min


def drops_in(seconds: Fraction, drop_rate_per_min: Fraction) -> Fraction:
    """Drops that fall in a window; may be part of one."""
    return drop_rate_per_min * seconds / MINUTE_S


def whole_drops(drops: Fraction) -> tuple[int, int]:
    """Fewest and most drops that a right count shows: 10 and 11 for 21/2, 8 and 8 for 8."""
    return floor(drops), ceil(drops)
