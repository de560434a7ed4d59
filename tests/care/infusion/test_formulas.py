"""Every formula against pint: dimension and value, by pint's own units."""

from __future__ import annotations

from fractions import Fraction
from functools import reduce
from typing import Any

import pytest

from handsfree.care.infusion.amounts import PER_TIME, DoseUnit
from handsfree.care.infusion.formula import Formula, Measure, Term
from handsfree.care.infusion.formulas import DOSE_OF_RATE, RATE_OF_DOSE, SUBJECTS
from tests.care.infusion.units_of_pint import size

UNITS = {
    **{"volume": "mL", "time": "min", "rate": "mL/h", "drop rate": "gtt/min", "drop factor": "gtt/mL"},
    **{"time from start to end": "min", "bags per day": "bags/day", "seconds per drop": "s"},
    **{"volume left": "mL", "given": "mL", "time left": "min", "time gone": "min"},
    **{
        "catch up rate": "mL/h",
        "catch up drop rate": "gtt/min",
        "lowest rate": "mL/h",
        "highest rate": "mL/h",
    },
    **{"drops": "gtt", "counting time": "s", "one drop error": "mL/h"},
    **{"count 15 s": "gtt", "count 30 s": "gtt", "count 60 s": "gtt"},
    **{"weight": "kg", "pounds": "lb", "drug": "mg", "bag": "mL", "concentration": "mg/mL"},
    **{"dose": "mg", "dose per kg": "mg/kg", "on hand": "mg", "quantity": "mL"},
    **{"first 10 kg": "kg", "next 10 kg": "kg", "kg above 20": "kg", "kg above 80": "kg"},
    **{"dehydration": "%", "burn": "%", "volume per kg": "mL/kg"},
    **{"first half left": "mL", "first 8 h rate": "mL/h", "next 16 h rate": "mL/h"},
    **{"time to hour 8": "min", "time to hour 24": "min"},
}
"""The unit of each quantity; that of a dose of time stands in its formula's place in the table."""

OF_TIME = {id(formula): key for table in (RATE_OF_DOSE, DOSE_OF_RATE) for key, formula in table.items()}

FORMULAS = [
    pytest.param(formula, id=f"{formula.gives} = {formula.text}")
    for subject in SUBJECTS.values()
    for formula in subject
]


def units_for(formula: Formula) -> dict[str, str]:
    if formula.gives.startswith("potassium"):
        return UNITS | {"drug": "mEq", "potassium strength": "mEq/L", "potassium rate": "mEq/h"}
    key = OF_TIME.get(id(formula))
    return UNITS | ({"dose": DoseUnit("mg", *key).text} if key else {})


def by_pint(term: Term, known: dict[str, Measure]) -> Any:
    """One product in pint's quantities."""
    factors = ((factor.measure(known), factor.divides) for factor in term.factors)
    sizes = (size(float(one.value), one.unit) ** (-1 if divides else 1) for one, divides in factors)
    return reduce(lambda a, b: a * b, sizes) * (-1 if term.minus else 1)


@pytest.mark.parametrize("formula", FORMULAS)
def test_pint_gets_the_same(formula: Formula) -> None:
    """In pint's quantities, with their units, each formula has the dimension and the value that it claims."""
    units = units_for(formula)
    names = sorted(formula.needs, key=lambda name: name not in ("volume", "time"))
    known = {name: Measure(Fraction(997, 3 + 2 * at), units[name]) for at, name in enumerate(names)}

    found = reduce(lambda a, b: a + b, (by_pint(term, known) for term in formula.terms))

    assert found.to(size(1, units[formula.gives]).units).magnitude == pytest.approx(
        float(formula.work_out(known)), rel=1e-12
    )


def test_every_kind_of_dose_has_its_formulas() -> None:
    """For each kilogram or not, by the minute, hour and day, in both directions."""
    kinds = {(per_kg, per) for per_kg in (True, False) for per in PER_TIME}

    assert kinds == RATE_OF_DOSE.keys() == DOSE_OF_RATE.keys()


@pytest.mark.parametrize("formula", FORMULAS)
def test_every_formula_has_a_source(formula: Formula) -> None:
    """A publication, arithmetic, or that it is common practice."""
    assert formula.source
