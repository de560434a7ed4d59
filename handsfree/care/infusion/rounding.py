"""Rounding, once and at the end: exact fractions inside, one policy on the way out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import floor
from types import MappingProxyType

from handsfree.care.infusion.amounts import AMOUNTS
from handsfree.care.infusion.sources import (
    CRITICAL_CARE,
    DOSAGE_BOOK,
    LOCAL,
    THREAD,
    THREE_FIGURES,
    WHOLE_DROPS,
)


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
class Precision:
    """How finely numbers of a unit are told, and who says so.

    places: digits after the point. figures: significant figures that are kept though they need more places.
    """

    places: int
    source: str
    figures: int = 0

    def step(self, exact: Fraction) -> Fraction:
        """The last digit that is told of a number."""
        places = self.places
        while self.figures and 0 < exact * 10**places < 10 ** (self.figures - 1):
            places += 1
        return Fraction(1, 10**places)


@dataclass(frozen=True, slots=True)
class Rounding:
    """Nothing is rounded to zero, and half goes up; `down`: what is given to the patient goes down."""

    precisions: Mapping[str, Precision]
    down: bool = False

    def round(self, exact: Fraction, unit: str) -> Rounded | RoundsToZero:
        """Round a positive number of `unit`; raises KeyError for a unit without a rule."""
        step = self.precision(unit).step(exact)
        steps = exact / step
        value = (floor(steps) if self.down and unit in GIVEN else half_up(steps)) * step
        return Rounded(exact, value) if value else RoundsToZero(exact, unit)

    def write(self, exact: Fraction, unit: str) -> str:
        """Number and unit, as in `31 gtt/min`; what would become zero keeps three figures."""
        match self.round(exact, unit):
            case Rounded() as rounded:
                return f"{rounded.text} {unit}"
            case RoundsToZero():
                step = Precision(0, LOCAL, figures=3).step(exact)
                return f"{decimal_text(half_up(exact / step) * step)} {unit}"

    def precision(self, unit: str) -> Precision:
        """The rule for a unit, as it stands or by its form: of a drug by volume, or a dose of a drug."""
        if unit in self.precisions:
            return self.precisions[unit]
        amount, _, per = unit.partition("/")
        if amount not in AMOUNTS:
            raise KeyError(unit)
        return self.precisions[CONCENTRATION if per == "mL" else DOSE]


GIVEN = frozenset({"mL", "mL/h", "gtt/min", "gtt"})
"""Units of what goes into a patient."""

CONCENTRATION, DOSE = "drug/mL", "drug"

PRECISIONS = MappingProxyType(
    {
        "gtt/min": Precision(0, WHOLE_DROPS),
        "gtt": Precision(0, WHOLE_DROPS),
        "gtt/mL": Precision(1, LOCAL),
        "mL": Precision(1, DOSAGE_BOOK),
        "mL/h": Precision(1, CRITICAL_CARE),
        "min": Precision(0, LOCAL),
        "s": Precision(1, LOCAL),
        "kg": Precision(1, LOCAL, figures=3),
        CONCENTRATION: Precision(1, THREE_FIGURES, figures=3),
        DOSE: Precision(2, THREE_FIGURES, figures=3),
        "bags/day": Precision(1, LOCAL),
        "mL/kg": Precision(1, LOCAL, figures=3),
        "%": Precision(1, LOCAL),
    }
)
"""By unit. A dose is told to the hundredth (66.67 mcg/min), a concentration to the tenth (83.3 units/mL)."""

POLICY = Rounding(PRECISIONS)
"""Half goes up, as in Pharmacology for Nurses, ch. 2 "Dosage Calculations" (OpenStax)."""


def whole_rates(rounding: Rounding) -> Rounding:
    """The same for a pump that takes whole mL/h only."""
    return replace(
        rounding, precisions=MappingProxyType({**rounding.precisions, "mL/h": Precision(0, THREAD)})
    )


def half_up(exact: Fraction) -> int:
    """The nearest whole number; half goes up (`round` would send 12.5 to 12)."""
    return floor(exact + Fraction(1, 2))


def duration_text(time_min: Fraction) -> str:
    """Hours and minutes as in `6 h 40 min`, rounded half up to the minute."""
    return duration(time_min, lambda number, unit: f"{number} {unit}")


def duration(time_min: Fraction, say: Callable[[Fraction, str], str]) -> str:
    """The same as it is said."""
    hours, minutes = divmod(half_up(time_min), 60)
    parts = ((hours, "h"), (minutes, "min"))
    return " ".join(say(Fraction(number), unit) for number, unit in parts if number)


def decimal_text(value: Fraction) -> str:
    """A fraction that ends in decimals, without trailing zeros."""
    return format((Decimal(value.numerator) / Decimal(value.denominator)).normalize(), "f")
