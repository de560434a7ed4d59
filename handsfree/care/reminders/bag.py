"""The bag that runs: how much was in it when, and how fast it runs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from fractions import Fraction

_S_PER_H = 3600


@dataclass(frozen=True, slots=True)
class Bag:
    """full_ml: what was in it when it was hung. left_ml: what was left `at`, from when on it runs so fast.

    given_ml: what had run in by then, from this bag and those before it.
    """

    full_ml: Fraction
    left_ml: Fraction
    at: datetime
    rate_ml_per_h: Fraction
    given_ml: Fraction = Fraction()

    def left(self, at: datetime) -> Fraction:
        """How much is left, reckoned by the rate; never below nothing."""
        run_s = Fraction(round((at - self.at).total_seconds() * 1_000_000), 1_000_000)
        return max(Fraction(), self.left_ml - self.rate_ml_per_h * run_s / _S_PER_H)

    def given(self, at: datetime) -> Fraction:
        """How much has run in, reckoned by the rate."""
        return self.given_ml + self.left_ml - self.left(at)

    def seen(self, left_ml: Fraction, at: datetime) -> Bag:
        """The bag with so much left: what is less or more than was reckoned has run in, or has not."""
        given_ml = self.given(at) + self.left(at) - left_ml
        return replace(self, left_ml=left_ml, at=at, given_ml=given_ml)

    def next(self, full_ml: Fraction, at: datetime) -> Bag:
        """The bag after this one, full."""
        return replace(self, full_ml=full_ml, left_ml=full_ml, at=at, given_ml=self.given(at))

    def ordered(self, volume_ml: Fraction, rate_ml_per_h: Fraction, at: datetime) -> Bag:
        """The same bag by another order: no more than its volume, at its rate."""
        left_ml = min(self.left(at), volume_ml)
        return replace(self, left_ml=left_ml, at=at, rate_ml_per_h=rate_ml_per_h, given_ml=self.given(at))

    def empty_at(self) -> datetime:
        """When nothing is left, to the second."""
        return self.at + timedelta(seconds=round(self.left_ml * _S_PER_H / self.rate_ml_per_h))
