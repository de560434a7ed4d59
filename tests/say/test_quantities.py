"""Quantities with their units, and lengths of time."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.say.numbers import Number, twice
from handsfree.say.quantities import duration, quantity, unit_words

QUANTITIES = [
    (125, "mL/h", "one hundred twenty five millilitres an hour"),
    (1, "mL/h", "one millilitre an hour"),
    (1, "L", "one litre"),
    (42, "gtt/min", "forty two drops a minute"),
    (1, "gtt/min", "one drop a minute"),
    (20, "gtt/mL", "twenty drops a millilitre"),
    (5, "mcg/kg/min", "five micrograms a kilogram a minute"),
    (0, "mL", "zero millilitres"),
    (Fraction("0.9"), "%", "zero point nine percent"),
    (Fraction("1.4"), "s", "one point four seconds"),
    (25_000, "units", "twenty five thousand units"),
    (70, "kg", "seventy kilograms"),
]

DURATIONS = [
    (0, "zero seconds"),
    (1, "one second"),
    (60, "one minute"),
    (90, "ninety seconds"),
    (120, "two minutes"),
    (125, "two minutes five seconds"),
    (3600, "one hour"),
    (24_000, "six hours forty minutes"),
    (28_800, "eight hours"),
]


@pytest.mark.parametrize(("value", "unit", "said"), QUANTITIES)
def test_quantity(value: Number, unit: str, said: str) -> None:
    """Units are said in full (S82, hospital verbal-order policies), one or many as the number is."""
    assert said == quantity(value, unit)


def test_read_back() -> None:
    """The number is said as asked, the unit follows it once."""
    assert quantity(15, "gtt/mL", twice) == "fifteen, one five drops a millilitre"


@pytest.mark.parametrize("unit", ["cc", "ug", "mL/fortnight", "", "/h"])
def test_unknown_unit(unit: str) -> None:
    """A unit without words is refused, rather than said as letters."""
    with pytest.raises(ValueError, match="no words for the unit"):
        unit_words(unit)


@pytest.mark.parametrize(("seconds", "said"), DURATIONS)
def test_duration(seconds: int, said: str) -> None:
    """A length of time is said in hours, minutes and seconds, leaving out what is zero."""
    assert said == duration(seconds)


def test_no_time_before_zero() -> None:
    """There is no length of time below zero."""
    with pytest.raises(ValueError, match="cannot be said"):
        duration(-1)
