"""Formulas as data."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care.infusion.formula import Formula, Measure, plain

KNOWN = {
    "volume": Measure(Fraction(1000), "mL"),
    "time": Measure(Fraction(480), "min"),
    "none": Measure(Fraction(0), "mL"),
}

WORKED = (
    ("volume ÷ time × 60 min/h", "125", "1000 mL ÷ 480 min × 60 min/h"),
    ("volume ÷ 2 − none", "500", "1000 mL ÷ 2"),
    ("volume + volume × 0.9", "1900", "1000 mL + 1000 mL × 0.9"),
    ("volume − volume ÷ 3", "2000/3", "1000 mL − 1000 mL ÷ 3"),
    ("volume", "1000", "1000 mL"),
)


@pytest.mark.parametrize(("text", "exact", "working"), WORKED)
def test_a_formula_is_worked_out_as_it_is_read(text: str, exact: str, working: str) -> None:
    """Products from left to right, then sums; the working shows the numbers, and leaves out what is zero."""
    formula = Formula("rate", text, "nobody")

    assert Fraction(exact) == formula.work_out(KNOWN)
    assert working == formula.working(KNOWN)


def test_a_formula_names_what_it_needs() -> None:
    """Constants are not needed from anybody."""
    assert {"volume", "drop factor", "time"} == Formula(
        "x", "volume × drop factor ÷ time × 60 min/h", ""
    ).needs


PLAIN = (("125", "125"), ("125/4", "31.25"), ("125/3", "41.6667"), ("1/1000000", "0"), ("10000", "10000"))


@pytest.mark.parametrize(("exact", "text"), PLAIN)
def test_workings_are_written_in_decimals(exact: str, text: str) -> None:
    """To the fourth decimal, without zeros at the end."""
    assert text == plain(Fraction(exact))
