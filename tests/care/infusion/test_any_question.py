"""Whatever is asked, over the whole range of inputs, there is an answer that can be said, or one sentence."""

from __future__ import annotations

import json
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.amounts import AMOUNTS, PER_TIME, DoseUnit
from handsfree.care.infusion.answer import Answer, Terms
from handsfree.care.infusion.burn import NAMES, Burn, burn_plan
from handsfree.care.infusion.catch_up import Behind
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.dose import DoseQuestion, Mix, dose_of_rate, draw_up, rate_of_dose
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.fluids import bolus, daily_maintenance, deficit, hourly_maintenance
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.rate import RateQuestion, rate_answer
from handsfree.care.infusion.refused import Refused
from handsfree.say.quantities import quantity

numbers = st.one_of(
    st.just(Fraction(0)),
    st.fractions(0, Fraction(1, 10), max_denominator=10**9),
    st.fractions(0, 100, max_denominator=1000),
    st.integers(0, 10**9).map(Fraction),
)
"""All that the reader of units lets through."""

maybe = st.none() | numbers
terms = st.builds(Terms, st.none() | st.sampled_from(Patient), st.booleans())
flows = st.builds(Flow, maybe, maybe, maybe, maybe, maybe)
weights = st.builds(Measure, numbers, st.sampled_from(["kg", "lb"]))
amounts = st.builds(Measure, numbers, st.sampled_from(sorted(AMOUNTS)))
wanted = st.builds(
    Measure, numbers, st.sampled_from([f"{amount}{per}" for amount in AMOUNTS for per in ("", "/kg")])
)
units = st.builds(DoseUnit, st.sampled_from(sorted(AMOUNTS)), st.booleans(), st.sampled_from(PER_TIME)).map(
    lambda unit: unit.text
)
names = st.sampled_from(["", "potassium", "heparin", "dopamine", "paracetamol"])
doses = st.builds(
    DoseQuestion, st.builds(Mix, amounts, numbers, names), st.none() | weights, flows, terms=terms
)


def is_whole(answer: Answer | Refused) -> None:
    """An answer has numbers above zero, a sentence and JSON; a refusal is one sentence."""
    if isinstance(answer, Refused):
        assert answer.reason.endswith(".") and "\n" not in answer.reason
        return
    assert all(one.number.value > 0 for one in answer.found)
    assert answer.says.endswith(".") and json.dumps(answer.as_json())
    assert all(caution.endswith(".") for caution in answer.cautions)


@settings(max_examples=300, deadline=None)
@given(
    known=flows,
    half_steps=flows,
    count=st.none() | st.builds(Count, st.integers(0, 10**6), numbers),
    behind=st.none() | st.builds(Behind, numbers, numbers),
    terms=terms,
)
def test_any_flow(
    known: Flow, half_steps: Flow, count: Count | None, behind: Behind | None, terms: Terms
) -> None:
    """Any part of a flow, counted or not, behind or not."""
    question = RateQuestion(known, half_steps, count=count, behind=behind, gauge=20, terms=terms)

    is_whole(rate_answer(question, quantity))


@settings(max_examples=300, deadline=None)
@given(question=doses, dose=numbers, unit=units, want=wanted)
def test_any_drug(question: DoseQuestion, dose: Fraction, unit: str, want: Measure) -> None:
    """Any dose, rate or amount, of any drug in anything."""
    is_whole(rate_of_dose(question, Measure(dose, unit), quantity))
    is_whole(dose_of_rate(question, unit, quantity))
    is_whole(dose_of_rate(question, "", quantity))
    is_whole(draw_up(question, want, quantity))


@settings(max_examples=300, deadline=None)
@given(weight=weights, one=numbers, other=maybe, time_min=numbers, terms=terms, name=st.sampled_from(NAMES))
def test_any_fluid(
    *, weight: Measure, one: Fraction, other: Fraction | None, time_min: Fraction, terms: Terms, name: str
) -> None:
    """Any weight, part of it, time and formula."""
    is_whole(hourly_maintenance(weight, terms, quantity))
    is_whole(daily_maintenance(weight, terms, quantity))
    is_whole(deficit(weight, one, time_min, terms, quantity))
    is_whole(bolus(weight, one, other, terms, quantity))
    is_whole(burn_plan(Burn(weight, one, time_min, other), name, terms, quantity))
