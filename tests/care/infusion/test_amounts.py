"""Amounts and doses, against pint's own units."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from pint import DimensionalityError

from handsfree.care.infusion.amounts import AMOUNTS, DoseUnit, dose_unit, in_unit, usual_dose_unit
from handsfree.units import registry
from tests.care.infusion.units_of_pint import size


def by_pint(unit: str, into: str) -> float | None:
    try:
        return float(size(1, unit).to(size(1, into).units).magnitude)
    except DimensionalityError:
        return None


@pytest.mark.parametrize(("unit", "into"), list(product(AMOUNTS, AMOUNTS)))
def test_amounts_are_those_of_pint(unit: str, into: str) -> None:
    """Each amount in each other unit is what pint makes of it; what measures something else is nothing."""
    if {unit, into} == {"mEq", "mmol"}:
        assert in_unit(Fraction(1), unit, into) is None
        return
    expected, found = by_pint(unit, into), in_unit(Fraction(1), unit, into)

    assert (expected is None) == (found is None)
    assert expected is None or found is None or expected == pytest.approx(float(found), rel=1e-12)


OURS = ("s", "min", "h", "day", "L", "mL", "mcg", "ng", "mg", "g", "units", "milliunits")


@pytest.mark.parametrize(("unit", "into"), list(product(OURS, OURS)))
def test_our_file_of_units_is_right(unit: str, into: str) -> None:
    """Whatever both know, our definitions and pint's turn into each other alike."""
    expected = by_pint(unit, into)
    try:
        found = float(registry().Quantity(Fraction(1), unit).to(into).magnitude)
    except DimensionalityError:
        assert expected is None
        return

    assert found == pytest.approx(expected, rel=1e-12)


KEPT_APART = (
    ("mL", "gtt"),
    ("gtt/mL", "gtt/min"),
    ("kg", "g"),
    ("kg", "mg"),
    ("mg", "units"),
    ("mEq", "mmol"),
)


@pytest.mark.parametrize(("unit", "other"), KEPT_APART)
def test_what_must_not_be_mixed_is_kept_apart(unit: str, other: str) -> None:
    """No conversion turns a volume into drops, the patient into a drug, or a drug into units."""
    with pytest.raises(DimensionalityError):
        registry().Quantity(Fraction(1), unit).to(other)


def test_pounds_are_those_of_the_course() -> None:
    """2.2 lb are 1 kg (Pharmacology for Nurses, ch. 2 "Dosage Calculations", OpenStax)."""
    assert Fraction(5, 11) == registry().Quantity(Fraction(1), "lb").to("kg").magnitude


@pytest.mark.parametrize("text", ["mcg/kg/min", "mcg/min", "mg/kg/h", "units/h", "milliunits/min", "mmol/h"])
def test_dose_units_come_back(text: str) -> None:
    """What is read is written the same."""
    assert text == dose_unit(text).text


@pytest.mark.parametrize(
    "text", ["", "mcg", "mcg/kg", "kg/min", "mcg/min/kg", "mcg/lb/min", "mL/h", "mg/kg/week"]
)
def test_other_units_are_no_doses(text: str) -> None:
    """A dose has an amount, perhaps a kilogram, and a time."""
    with pytest.raises(ValueError, match="not the unit of a dose"):
        dose_unit(text)


USUAL = (
    ("mg", True, DoseUnit("mcg", True, "min")),
    ("g", False, DoseUnit("mcg", False, "min")),
    ("units", True, DoseUnit("units", False, "h")),
    ("mEq", False, DoseUnit("mEq", False, "h")),
)


@pytest.mark.parametrize(("amount", "weight_known", "unit"), USUAL)
def test_the_usual_unit(amount: str, weight_known: bool, unit: DoseUnit) -> None:
    """mcg/kg/min for a mass with weight, mcg/min without, an hour's worth of anything else."""
    assert unit == usual_dose_unit(amount, weight_known=weight_known)
