"""Fluid by weight."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.answer import ANYBODY, Answer, Terms
from handsfree.care.infusion.fluids import bolus, daily_maintenance, deficit, hourly_maintenance
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.refused import Refused
from handsfree.say.quantities import quantity


def kg(number: int | str | Fraction) -> Measure:
    return Measure(Fraction(number), "kg")


def exact(answer: Answer | Refused, name: str) -> Fraction:
    assert isinstance(answer, Answer), answer
    return next(one.number.exact for one in answer.found if one.name == name)


@settings(deadline=None)
@given(weight=st.integers(1, 120))
def test_maintenance_is_so_much_for_each_kilogram(weight: int) -> None:
    """Counted kilogram by kilogram: 4, 2 and 1 mL/h, 100, 50 and 20 mL a day (Core paediatrics, Fluids &
    Electrolytes p. 4, University of Texas Medical Branch)."""
    hourly = sum(4 if at < 10 else 2 if at < 20 else 1 for at in range(weight))
    daily = sum(100 if at < 10 else 50 if at < 20 else 20 for at in range(weight))
    a_day = daily_maintenance(kg(weight), ANYBODY, quantity)

    assert hourly == exact(hourly_maintenance(kg(weight), ANYBODY, quantity), "rate")
    assert (Fraction(daily), Fraction(daily, 24)) == (exact(a_day, "volume"), exact(a_day, "rate"))


@settings(deadline=None)
@given(weight=st.fractions(1, 120, max_denominator=10), more=st.fractions(Fraction(1, 10), 50))
def test_more_weight_is_more_fluid(weight: Fraction, more: Fraction) -> None:
    """Maintenance never falls with the weight."""
    one, other = (
        exact(hourly_maintenance(kg(w), ANYBODY, quantity), "rate") for w in (weight, weight + more)
    )

    assert one < other


@settings(deadline=None)
@given(
    weight=st.integers(1, 100), percent=st.integers(1, 10), hours=st.integers(1, 72), times=st.integers(2, 5)
)
def test_a_deficit_is_that_part_of_the_weight(weight: int, percent: int, hours: int, times: int) -> None:
    """A kilogram that is lost is a litre; what runs for its time is the deficit (IV fluid prescribing, quick
    reference, UK: 5 % of 22 kg are 1100 mL)."""
    answer = deficit(kg(weight), Fraction(percent), Fraction(hours * 60), Terms(), quantity)

    if isinstance(answer, Answer):
        assert Fraction(weight * percent, 100) * 1000 == exact(answer, "volume")
        assert exact(answer, "rate") * hours == exact(answer, "volume")


def test_a_bolus_is_as_ordered() -> None:
    """10 mL/kg in 10 minutes for 18 kg, as NICE NG29 has it (from a summary): 180 mL at 1080 mL/h."""
    answer = bolus(kg(18), Fraction(10), Fraction(10), Terms(Patient.CHILD), quantity)

    assert (Fraction(180), Fraction(1080)) == (exact(answer, "volume"), exact(answer, "rate"))
    assert "one hundred eighty millilitres, one thousand eighty millilitres an hour." == (
        isinstance(answer, Answer) and answer.says
    )


CAUTIONS = (
    (
        hourly_maintenance(kg(3), ANYBODY, quantity),
        "3 kg is below what is usual, 3.5 kg (not meant for newborns",
    ),
    (hourly_maintenance(kg(70), ANYBODY, quantity), "110 mL/h is above what is usual, 100 mL/h"),
    (daily_maintenance(kg(90), ANYBODY, quantity), "2900 mL is above what is usual, 2400 mL"),
    (hourly_maintenance(kg(22), ANYBODY, quantity), "4-2-1 by the hour and 100-50-20 by the day do not"),
    (deficit(kg(22), Fraction(12), Fraction(1440), ANYBODY, quantity), "12 % is above what is usual, 10 %"),
    (bolus(kg(20), Fraction(10), None, ANYBODY, quantity), "look again between portions"),
    (
        bolus(kg(20), Fraction(30), None, Terms(Patient.CHILD), quantity),
        "above what is usual for a child, 20 mL/kg",
    ),
)


@pytest.mark.parametrize(("answer", "caution"), CAUTIONS)
def test_what_is_to_be_kept_in_mind(answer: Answer | Refused, caution: str) -> None:
    """Published bounds and doubts are told with the number."""
    assert isinstance(answer, Answer), answer
    assert any(caution in one for one in answer.cautions)


REFUSED = (
    (hourly_maintenance(kg(0), ANYBODY, quantity), "below the limit"),
    (daily_maintenance(kg(500), ANYBODY, quantity), "above the limit"),
    (deficit(kg(22), Fraction(30), Fraction(60), ANYBODY, quantity), "30 % is above the limit of 20 %"),
    (deficit(kg(22), Fraction(0), Fraction(60), ANYBODY, quantity), "not more than zero"),
    (deficit(kg(22), Fraction(5), Fraction(0), ANYBODY, quantity), "no minutes"),
    (bolus(kg(22), Fraction(80), None, ANYBODY, quantity), "80 mL/kg is above the limit of 60 mL/kg"),
)


@pytest.mark.parametrize(("answer", "reason"), REFUSED)
def test_nonsense_is_refused(answer: Answer | Refused, reason: str) -> None:
    """Zero, huge, no time: one sentence."""
    assert isinstance(answer, Refused)
    assert reason in answer.reason


def test_an_infants_numbers_go_down() -> None:
    """5.69 kg by 4-2-1 are 22.76 mL/h: 22.8 for anybody, 22.7 for an infant (rounding down for children:
    Pharmacology for Nurses, ch. 2 "Dosage Calculations", OpenStax)."""
    infant = Terms(Patient.INFANT)
    answer = hourly_maintenance(kg("5.69"), infant, quantity)

    assert isinstance(answer, Answer)
    assert ("22.7", "22.8") == (
        answer.found[0].number.text,
        ANYBODY.rounding.write(exact(answer, "rate"), "mL/h").split()[0],
    )
