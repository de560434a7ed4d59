"""Doses to rates and back, and what is drawn up."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.amounts import AMOUNTS, PER_TIME, DoseUnit, in_unit
from handsfree.care.infusion.answer import Answer
from handsfree.care.infusion.dose import (
    DoseQuestion,
    Mix,
    dose_of_rate,
    draw_up,
    rate_of_dose,
    strength,
)
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.refused import Refused
from handsfree.say.quantities import quantity
from tests.care.infusion.units_of_pint import size

KINDS = [DoseUnit(amount, per_kg, per) for amount in AMOUNTS for per_kg in (True, False) for per in PER_TIME]

numbers = st.fractions(Fraction(1, 100), 1000, max_denominator=100)
kinds = st.sampled_from(KINDS)


def measure(text: str) -> Measure:
    number, unit = text.split()
    return Measure(Fraction(number), unit)


def question(drug: str, in_ml: str, weight: str = "", name: str = "", factor: str = "") -> DoseQuestion:
    flow = Flow(drop_factor_per_ml=Fraction(factor) if factor else None)
    return DoseQuestion(Mix(measure(drug), Fraction(in_ml), name), measure(weight) if weight else None, flow)


def exact(answer: Answer | Refused, name: str) -> Fraction:
    assert isinstance(answer, Answer), answer
    return next(one.number.exact for one in answer.found if one.name == name)


@pytest.mark.parametrize("unit", KINDS, ids=lambda unit: unit.text)
def test_every_kind_of_dose_runs_as_pint_says(unit: DoseUnit) -> None:
    """The rate of a dose of each kind, by pint's own units, in another unit of the drug too."""
    drug = next(other for other in reversed(AMOUNTS) if in_unit(Fraction(1), other, unit.amount) is not None)
    asked = DoseQuestion(Mix(Measure(Fraction(4), drug), Fraction(250)), Measure(Fraction(70), "kg"))
    dose = Measure(Fraction(9, 7) * (in_unit(Fraction(1), drug, unit.amount) or 0) / 70, unit.text)
    by_pint = size(float(dose.value), unit.text) * size(250, "mL") / size(4, drug)
    expected = (by_pint * size(70, "kg") if unit.per_kg else by_pint).to(size(1, "mL/h").units).magnitude
    answer = rate_of_dose(asked, dose, quantity)

    if isinstance(answer, Answer):
        assert expected == pytest.approx(float(exact(answer, "rate")), rel=1e-12)
    else:
        assert expected < 0.1 or expected > 17_000, answer.reason


@settings(deadline=None)
@given(unit=kinds, dose=numbers, drug=numbers, in_ml=numbers, kg=st.integers(1, 200))
def test_there_and_back(unit: DoseUnit, dose: Fraction, drug: Fraction, in_ml: Fraction, kg: int) -> None:
    """The rate of a dose is the rate that gives this dose."""
    mix = Mix(Measure(drug, unit.amount), in_ml)
    weight = Measure(Fraction(kg), "kg")
    there = rate_of_dose(DoseQuestion(mix, weight), Measure(dose, unit.text), quantity)
    assume(isinstance(there, Answer))
    flow = Flow(rate_ml_per_h=exact(there, "rate"))
    back = dose_of_rate(DoseQuestion(mix, weight, flow), unit.text, quantity)

    assert dose == exact(back, "dose")


@settings(deadline=None)
@given(dose=numbers, more=numbers, drug=numbers, in_ml=numbers)
def test_rates_grow_with_the_dose_and_fall_with_the_strength(
    dose: Fraction, more: Fraction, drug: Fraction, in_ml: Fraction
) -> None:
    """More dose is more rate, in proportion; more drug in the same bag is less, in inverse proportion."""
    answers = [
        rate_of_dose(DoseQuestion(Mix(Measure(strong, "mg"), in_ml)), Measure(wanted, "mg/h"), quantity)
        for wanted, strong in ((dose, drug), (dose * (1 + more), drug), (dose, drug * (1 + more)))
    ]
    assume(all(isinstance(answer, Answer) for answer in answers))
    one, more_dose, stronger = (exact(answer, "rate") for answer in answers)

    assert (one * (1 + more), one / (1 + more)) == (more_dose, stronger)


@settings(deadline=None)
@given(want=numbers, drug=numbers, in_ml=numbers)
def test_what_is_drawn_up_holds_what_is_wanted(want: Fraction, drug: Fraction, in_ml: Fraction) -> None:
    """The volume, at the strength that is told, is the amount that was wanted."""
    asked = DoseQuestion(Mix(Measure(drug, "mg"), in_ml))
    answer = draw_up(asked, Measure(want, "mg"), quantity)
    assume(isinstance(answer, Answer))

    assert want == exact(answer, "volume") * exact(answer, "concentration")


SAYS = (
    (
        rate_of_dose(question("800 mg", "500", "176 lb"), measure("5 mcg/kg/min"), quantity),
        "fifteen millilitres an hour.",
    ),
    (
        draw_up(question("125 mg", "5", "110 lb"), measure("10 mg/kg"), quantity),
        "five hundred milligrams, draw up twenty millilitres.",
    ),
    (strength(question("50000 units", "600"), quantity), "eighty three point three units a millilitre."),
)


@pytest.mark.parametrize(("answer", "says"), SAYS)
def test_the_answer_in_a_sentence(answer: Answer | Refused, says: str) -> None:
    """A dose for each kilogram is said together with the whole (hospital verbal-order policies)."""
    assert isinstance(answer, Answer)
    assert says == answer.says


REFUSED = (
    (rate_of_dose(question("800 mg", "500"), measure("5 mcg/kg/min"), quantity), "needs the weight"),
    (rate_of_dose(question("800 mg", "500"), measure("5 units/h"), quantity), "measure different things"),
    (rate_of_dose(question("800 mEq", "500"), measure("5 mmol/h"), quantity), "measure different things"),
    (rate_of_dose(question("0 mg", "500"), measure("5 mg/h"), quantity), "more than zero"),
    (rate_of_dose(question("5 mg", "0"), measure("5 mg/h"), quantity), "more than zero"),
    (rate_of_dose(question("5 mg", "5"), measure("0 mg/h"), quantity), "not more than zero"),
    (rate_of_dose(question("5 g", "5"), measure("1 ng/day"), quantity), "rounded to zero"),
    (rate_of_dose(question("1 ng", "5"), measure("1 g/min"), quantity), "more than any infusion"),
    (
        rate_of_dose(question("5 mg", "500", "900 kg"), measure("1 mg/h"), quantity),
        "above the limit of 400 kg",
    ),
    (rate_of_dose(question("5 mg", "500", "0 kg"), measure("1 mg/kg/h"), quantity), "below the limit"),
    (draw_up(question("5 mg", "5"), measure("1 mg/kg"), quantity), "needs the weight"),
    (dose_of_rate(question("5 mg", "5"), "mg/h", quantity), "Too little is known"),
    (
        draw_up(question("20 mEq", "10", name="Potassium chloride"), measure("10 mEq"), quantity),
        "Potassium is never pushed",
    ),
    (
        rate_of_dose(question("40 mEq", "500", name="potassium"), measure("10 mEq/h"), quantity),
        "80 mEq/L is above the limit of 40 mEq/L",
    ),
    (
        rate_of_dose(question("40 mEq", "1000", name="potassium"), measure("25 mEq/h"), quantity),
        "25 mEq/h is above the limit of 20 mEq/h",
    ),
    (
        rate_of_dose(question("3 g", "1000", name="potassium"), measure("1 g/h"), quantity),
        "Potassium is told in mEq or mmol",
    ),
    (
        rate_of_dose(
            question("25000 units", "250", name="heparin", factor="60"), measure("500 units/h"), quantity
        ),
        "Heparin is never computed as a drip here. Use a pump and a second checker.",
    ),
    (
        rate_of_dose(
            question("4 mg", "250", name="noradrenaline", factor="60"), measure("4 mcg/min"), quantity
        ),
        "Vasopressors are never computed as a drip here.",
    ),
)


@pytest.mark.parametrize(("answer", "reason"), REFUSED)
def test_what_has_no_answer_is_refused(answer: Answer | Refused, reason: str) -> None:
    """Missing, mixed, impossible, vanishing, and what must not drip or be pushed. Potassium's ceilings: the
    chapter on fluids and electrolytes of Pharmacology for Nurses (OpenStax)."""
    assert isinstance(answer, Refused)
    assert reason in answer.reason


CAUTIONED = (
    (
        rate_of_dose(question("25000 units", "250", name="heparin"), measure("500 units/h"), quantity),
        "Use a pump and a second checker.",
    ),
    (
        rate_of_dose(question("40 mEq", "1000", name="potassium"), measure("15 mEq/h"), quantity),
        "15 mEq/h is above what is usual, 10 mEq/h (many hospital policies, from memory).",
    ),
    (
        rate_of_dose(question("800 mg", "500", "80 kg"), measure("400 mcg/min"), quantity),
        "The weight was not used: the dose is in mcg/min.",
    ),
    (draw_up(question("20 mEq", "10"), measure("10 mEq"), quantity), "If this is potassium, never push it."),
    (draw_up(question("10 mg", "1"), measure("25 mg"), quantity), "That is more than the one at hand holds."),
    (
        rate_of_dose(question("800 mg", "500", "176 lb"), measure("5 mcg/kg/min"), quantity),
        "Pounds were divided by 2.2, as is taught; exactly it is 2.2046 (from memory).",
    ),
)


@pytest.mark.parametrize(("answer", "caution"), CAUTIONED)
def test_what_is_to_be_kept_in_mind(answer: Answer | Refused, caution: str) -> None:
    """The arithmetic stays open where a pump runs it, with its caution."""
    assert isinstance(answer, Answer), answer
    assert caution in answer.cautions
