"""Amounts of a drug, and doses: so much of it, for each kilogram or not, in a minute, an hour or a day."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

AMOUNTS = MappingProxyType(
    {
        "ng": ("mass", Fraction(1, 1000)),
        "mcg": ("mass", Fraction(1)),
        "mg": ("mass", Fraction(1000)),
        "g": ("mass", Fraction(1_000_000)),
        "milliunits": ("units", Fraction(1, 1000)),
        "units": ("units", Fraction(1)),
        "mEq": ("mEq", Fraction(1)),
        "mmol": ("mmol", Fraction(1)),
    }
)
"""By unit: what is measured, and one of it in the smallest unit that is usual. g, mg and mcg: Pharmacology
for Nurses, ch. 2 "Dosage Calculations" (OpenStax)."""

PER_TIME = ("min", "h", "day")


@dataclass(frozen=True, slots=True)
class DoseUnit:
    """As in mcg/kg/min. amount: of AMOUNTS. per_kg: for each kilogram of the patient. per: of PER_TIME."""

    amount: str
    per_kg: bool
    per: str

    @property
    def text(self) -> str:
        """As the trade writes it."""
        return "/".join([self.amount, *(["kg"] if self.per_kg else []), self.per])


def dose_unit(text: str) -> DoseUnit:
    """The unit of a dose, from how it is written; raises ValueError where it is none."""
    amount, _, rest = text.partition("/")
    kg, _, per = rest.rpartition("/")
    if amount not in AMOUNTS or kg not in ("", "kg") or per not in PER_TIME:
        raise ValueError(f"{text!r} is not the unit of a dose")
    return DoseUnit(amount, bool(kg), per)


def usual_dose_unit(amount: str, *, weight_known: bool) -> DoseUnit:
    """What is asked for where nobody names a unit: mcg/kg/min, without weight mcg/min; units/h, mEq/h."""
    measured, _ = AMOUNTS[amount]
    return DoseUnit("mcg", weight_known, "min") if measured == "mass" else DoseUnit(measured, False, "h")


def in_unit(value: Fraction, unit: str, into: str) -> Fraction | None:
    """An amount in another unit, exactly; None where the two measure different things."""
    measured, one = AMOUNTS[unit]
    other, one_of_other = AMOUNTS[into]
    return value * one / one_of_other if measured == other else None
