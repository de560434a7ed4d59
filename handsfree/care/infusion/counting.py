"""Drops counted against time: what to count, and what a count tells."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.formulas import BEAT, COUNTED, ONE_DROP

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
        return COUNTED.work_out(self.measures())

    @property
    def one_drop_per_min(self) -> Fraction:
        """By how many drops a minute one drop missed or doubled changes it."""
        return MINUTE_S / self.over_s

    def one_drop_ml_per_h(self, drop_factor_per_ml: Fraction) -> Fraction:
        """The same for the rate, in mL/h."""
        return ONE_DROP.work_out({**self.measures(), "drop factor": Measure(drop_factor_per_ml, "gtt/mL")})

    def measures(self) -> dict[str, Measure]:
        """The count as formulas take it."""
        return {"drops": Measure(Fraction(self.drops), "gtt"), "counting time": Measure(self.over_s, "s")}


def seconds_per_drop(drop_rate_per_min: Fraction) -> Fraction:
    """From one drop to the next: the beat for the ear."""
    return BEAT.work_out({"drop rate": Measure(drop_rate_per_min, "gtt/min")})


def drops_in(seconds: Fraction, drop_rate_per_min: Fraction) -> Fraction:
    """Drops that fall in a window; may be part of one."""
    return drop_rate_per_min * seconds / MINUTE_S


def whole_drops(drops: Fraction) -> tuple[int, int]:
    """Fewest and most drops that a right count shows: 10 and 11 for 21/2, 8 and 8 for 8."""
    return floor(drops), ceil(drops)
