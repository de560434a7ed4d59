"""The bag that runs: how much was in it when, and how fast it runs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction

_S_PER_H = 3600


@dataclass(frozen=True, slots=True)
class Bag:
    """full_ml: what was in it when it was hung. left_ml: what was left `at`, from when on it runs so fast."""

    full_ml: Fraction
    left_ml: Fraction
    at: datetime
    rate_ml_per_h: Fraction

    def left(self, at: datetime) -> Fraction:
        """How much is left, reckoned by the rate; never below nothing."""
        run_s = Fraction(round((at - self.at).total_seconds() * 1_000_000), 1_000_000)
        return max(Fraction(), self.left_ml - self.rate_ml_per_h * run_s / _S_PER_H)

    def empty_at(self) -> datetime:
        """When nothing is left, to the second."""
        return self.at + timedelta(seconds=round(self.left_ml * _S_PER_H / self.rate_ml_per_h))
