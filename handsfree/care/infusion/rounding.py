"""Rounding, once and at the end: exact fractions inside, one policy on the way out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import floor
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Rounded:
    """A positive number as it is written and spoken. value: `exact` after rounding."""

    exact: Fraction
    value: Fraction

    @property
    def text(self) -> str:
        """The rounded number in decimals, without trailing zeros."""
        return decimal_text(self.value)

    @property
    def shift(self) -> Fraction:
        """By what part of itself rounding changed the number; 0 where it did not."""
        return abs(self.value - self.exact) / self.exact


@dataclass(frozen=True, slots=True)
class RoundsToZero:
    """A positive number that is too small to be told at this precision."""

    exact: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Rounding:
    """Half goes up, and nothing that is there is rounded away.

    places: digits after the point for each unit.
    """

    places: Mapping[str, int]

    def round(self, exact: Fraction, unit: str) -> Rounded | RoundsToZero:
        """Round a positive number of `unit`; raises KeyError for a unit without a rule."""
        step = Fraction(1, 10 ** self.places[unit])
        value = half_up(exact / step) * step
        return Rounded(exact, value) if value else RoundsToZero(exact, unit)

    def write(self, exact: Fraction, unit: str) -> str:
        """Number and unit, as in `31 gtt/min`; what would become zero is written as a fraction."""
        match self.round(exact, unit):
            case Rounded() as rounded:
                return f"{rounded.text} {unit}"
            case RoundsToZero():
                return f"{exact} {unit}"


POLICY = Rounding(MappingProxyType({"gtt/min": 0, "gtt/mL": 1, "mL": 1, "mL/h": 1, "min": 0, "s": 1, "%": 0}))
"""Drops whole, since part of a drop cannot be counted: Pharmacology for Nurses, ch. 2 "Dosage
Calculations" (OpenStax), where half goes up too; mL to the tenth by the same chapter. mL/h to the tenth as in
Critical Care Calculations (nursing dosage course page). Minutes and seconds: local policy."""


def half_up(exact: Fraction) -> int:
    """The nearest whole number; half goes up (`round` would send 12.5 to 12)."""
    return floor(exact + Fraction(1, 2))


def decimal_text(value: Fraction) -> str:
    """A fraction that ends in decimals, without trailing zeros."""
    return format((Decimal(value.numerator) / Decimal(value.denominator)).normalize(), "f")
