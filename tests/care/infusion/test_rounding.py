"""Half goes up, and nothing that is there becomes nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.answer import Terms
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.rounding import POLICY, Rounded, RoundsToZero

PUBLISHED = (
    ("Dosage calculation practice exam with answers", "12.5", "gtt/min", "13"),
    ("IV formula hand-out with worked answers", "62.5", "gtt/min", "63"),
    ("short published questions and answers", "2.5", "gtt/min", "3"),
    ("Pharmacology Math for the Practical Nurse, MD0904, page 123", "125/3", "gtt/min", "42"),
    ("Critical Care Calculations (nursing dosage course page)", "102.709", "mL/h", "102.7"),
    ("Dosage exam answers with working", "11.34", "mL/h", "11.3"),
    ("Nursing math, paediatric IV flow rate (San Antonio College)", "0.3", "mL/h", "0.3"),
    ("IV fluid prescribing, quick reference", "275/12", "mL/h", "22.9"),
    ("Critical Care Calculations (nursing dosage course page)", "250/3", "units/mL", "83.3"),
    ("Critical Care Calculations (nursing dosage course page)", "200/3", "mcg/min", "66.67"),
    ("three figures of a small dose, local policy", "0.0512", "mg/kg/h", "0.0512"),
    ("no zeros at the end", "30", "mL/h", "30"),
    ("nor a power of ten", "10000", "mL", "10000"),
)


@pytest.mark.parametrize(("source", "exact", "unit", "text"), PUBLISHED)
def test_rounding_is_the_published_one(source: str, exact: str, unit: str, text: str) -> None:
    """Rounded numbers are those that were published; `round` would give 12, 62 and 2 for the first three."""
    rounded = POLICY.round(Fraction(exact), unit)

    assert isinstance(rounded, Rounded), source
    assert text == rounded.text, source


DOWN = (
    ("gtt/min", "5.642", "5"),
    ("mL/h", "5.68", "5.6"),
    ("mL", "2.99", "2.9"),
    ("min", "5.642", "6"),
    ("kg", "5.642", "5.64"),
)


@pytest.mark.parametrize(("unit", "exact", "text"), DOWN)
def test_an_infants_numbers_go_down(unit: str, exact: str, text: str) -> None:
    """What goes into an infant is cut, as 5.642 to 5 (Pharmacology for Nurses, ch. 2 "Dosage Calculations",
    OpenStax); times and weights are not."""
    rounded = Terms(Patient.INFANT).rounding.round(Fraction(exact), unit)

    assert isinstance(rounded, Rounded)
    assert text == rounded.text


def test_a_pump_may_take_whole_rates_only() -> None:
    """36 for 35.625 mL/h (Dosage Calculation in Critical Care Settings, Southern Adventist University)."""
    assert "36 mL/h" == Terms(whole=True).rounding.write(Fraction(285, 8), "mL/h")


VANISHING = (
    ("0.49", "gtt/min", "0.49"),
    ("0.049", "mL/h", "0.049"),
    ("1/3", "min", "0.333"),
    ("1/30000", "mL", "0.0000333"),
)


@pytest.mark.parametrize(("exact", "unit", "written"), VANISHING)
def test_nothing_is_rounded_to_zero(exact: str, unit: str, written: str) -> None:
    """What would become zero is an outcome of its own, and is written to three figures."""
    assert RoundsToZero(Fraction(exact), unit) == POLICY.round(Fraction(exact), unit)
    assert f"{written} {unit}" == POLICY.write(Fraction(exact), unit)


UNITS = (*(unit for unit in POLICY.precisions if not unit.startswith("drug")), "mcg/kg/min", "units/mL")


@settings(deadline=None)
@given(
    exact=st.fractions(min_value=Fraction(1, 1000), max_value=100_000),
    unit=st.sampled_from(UNITS),
)
def test_rounding_moves_by_half_a_step_at_most(exact: Fraction, unit: str) -> None:
    """A rounded number is within half a step, above zero, and its text is that number."""
    half_step = POLICY.precision(unit).step(exact) / 2
    match POLICY.round(exact, unit):
        case Rounded() as rounded:
            assert -half_step < rounded.value - exact <= half_step
            assert rounded.value == Fraction(rounded.text) > 0
            assert rounded.shift == abs(rounded.value / exact - 1)
        case RoundsToZero():
            assert exact < half_step
