"""What is possible, and what is usual."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care.infusion.flow import flow_of
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.limits import LIMITS, above_free_flow, beyond, outside
from handsfree.care.infusion.patient import Patient

FOUND = (
    ("volume", "1000", ()),
    ("volume", "5000", (("usual", False),)),
    ("volume", "100000", (("the limit of", True),)),
    ("volume", "1/2", (("the limit of", True),)),
    ("time", "480", ()),
    ("time", "2000", (("33 h 20 min is above what is usual, 24 h", False),)),
    ("time", "1/2", (("the limit of", True),)),
    ("rate", "125", ()),
    ("rate", "3/10", (("usual", False),)),
    ("rate", "18000", (("the limit of", True),)),
    ("drop factor", "21", ()),
    ("drop factor", "13", (("not a usual set", False),)),
    ("drop factor", "500", (("the limit of", True),)),
    ("drop rate", "200", ()),
    ("drop rate", "201", (("usual", False),)),
    ("drop rate", "2/3", (("0.6667 gtt/min is below what is usual, 1 gtt/min", False),)),
)


@pytest.mark.parametrize(("name", "value", "found"), FOUND)
def test_each_number_is_held_against_its_limits(
    name: str, value: str, found: tuple[tuple[str, bool], ...]
) -> None:
    """Impossible and unusual numbers are told apart, each once, with the limit in words."""
    faults = beyond(flow_of({name: Fraction(value)}))

    assert [hard for _, hard in found] == [fault.hard for fault in faults]
    assert all(words in fault.reason for (words, _), fault in zip(found, faults, strict=True))


def test_every_limit_has_a_range_and_a_source() -> None:
    """No limit is empty, none comes from nowhere, and a hard one allows all that a soft one does."""
    for limit in LIMITS:
        assert limit.source
        assert limit.low is None or limit.high is None or limit.low < limit.high
    for hard in (limit for limit in LIMITS if limit.hard):
        soft = [limit for limit in LIMITS if limit.quantity == hard.quantity and not limit.hard]
        bounds = [bound for limit in soft for bound in (limit.low, limit.high) if bound is not None]
        assert all(hard.holds(bound) for bound in bounds), hard.quantity


BY_PATIENT = (
    ("rate", "200 mL/h", None, ""),
    ("rate", "200 mL/h", Patient.CHILD, ""),
    ("rate", "300 mL/h", Patient.CHILD, "for a child, 250 mL/h (local policy)"),
    ("rate", "5 mL/h", Patient.CHILD, ""),
    ("rate", "5 mL/h", Patient.ADULT, "below what is usual, 10 mL/h"),
    ("rate", "200 mL/h", Patient.INFANT, "for an infant, 100 mL/h"),
    ("weight", "5 kg", Patient.ADULT, "below what is usual for an adult, 35 kg"),
    ("weight", "5 kg", Patient.INFANT, ""),
    ("weight", "500 kg", Patient.ADULT, "above the limit of 400 kg"),
    ("burn", "12 %", Patient.ADULT, "below what is usual for an adult, 15 % (Major trauma: burns"),
    ("burn", "12 %", Patient.CHILD, ""),
    ("volume per kg", "25 mL/kg", Patient.CHILD, "above what is usual for a child, 20 mL/kg"),
    ("volume per kg", "25 mL/kg", Patient.ADULT, ""),
)


@pytest.mark.parametrize(("quantity", "written", "patient", "words"), BY_PATIENT)
def test_what_is_usual_differs_by_patient(
    quantity: str, written: str, patient: Patient | None, words: str
) -> None:
    """A limit of a kind of patient takes the place of one for everybody. 15 and 10 % of the surface: RCEM
    Learning (UK), Major trauma: burns; 20 mL/kg: a US children's hospital's pathway; the rest local."""
    value, unit = written.split()
    reasons = [one.reason for one in outside({quantity: Measure(Fraction(value), unit)}, patient)]

    assert [words in reason for reason in reasons] == ([True] if words else [])


CEILINGS = (
    (18, 6000, False),
    (18, 6001, True),
    (20, 4000, False),
    (22, 2728, True),
    (14, 17_000, False),
    (24, 9000, False),
)


@pytest.mark.parametrize(("gauge", "rate_ml_per_h", "is_above"), CEILINGS)
def test_a_cannula_lets_so_much_through(gauge: int, rate_ml_per_h: int, is_above: bool) -> None:
    """Ideal gravity, a litre of saline in 10 min by 18, 15 by 20, 22 by 22 gauge (emergency department
    handbook, IV cannula page, South Australia), is the ceiling; of other gauges nothing is said."""
    assert is_above == (above_free_flow(Fraction(rate_ml_per_h), gauge) is not None)
