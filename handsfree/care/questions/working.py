"""From a question to its answer, by the arithmetic that the keyboard has too."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import refusals
from handsfree.care.infusion.answer import Answer, Say, Terms
from handsfree.care.infusion.burn import Burn, burn_plan
from handsfree.care.infusion.catch_up import change_caution
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.dose import DoseQuestion, Mix, dose_of_rate, draw_up, rate_of_dose, strength
from handsfree.care.infusion.flow import UNITS, Flow, flow_of
from handsfree.care.infusion.fluids import bolus, daily_maintenance, deficit, hourly_maintenance
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.rate import RateQuestion, rate_answer
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sentences import say_found
from handsfree.care.questions.question import Question, Subject


@dataclass(frozen=True, slots=True)
class Asker:
    """For whom it is worked out, how numbers are said, and the rate that the plan has, if any."""

    terms: Terms
    say: Say
    planned_ml_per_h: Fraction | None = None


def answer(question: Question, asker: Asker) -> Answer | Refused:
    """All that follows from a question that lacks nothing."""
    return _ANSWERS[question.subject](question, asker)


def _flow(question: Question, asker: Asker) -> Answer | Refused:
    return rate_answer(
        RateQuestion(_known(question), name=question.named("name"), terms=asker.terms), asker.say
    )


def _one_of_flow(name: str) -> Callable[[Question, Asker], Answer | Refused]:
    """An answer of which one number is said."""

    def told(question: Question, asker: Asker) -> Answer | Refused:
        whole = _flow(question, asker)
        if isinstance(whole, Refused):
            return whole
        found = [one for one in whole.found if one.name == name]
        return (
            replace(whole, says=f"{say_found(found, asker.say)}.") if found else Refused(refusals.TOO_LITTLE)
        )

    return told


def _count(question: Question, asker: Asker) -> Answer | Refused:
    drops, over_s = question.named("count").split("/")
    count = Count(int(drops), Fraction(over_s))
    known = Flow(drop_factor_per_ml=question.value("drop factor"))
    return rate_answer(RateQuestion(known, count=count, terms=asker.terms), asker.say)


def _catch_up(question: Question, asker: Asker) -> Answer | Refused:
    """What is left, in the time that is left; a large change of the plan's rate is to be asked for."""
    left = Flow(
        question.value("left"), question.value("time left"), drop_factor_per_ml=question.value("drop factor")
    )
    found = rate_answer(RateQuestion(left, name=question.named("name"), terms=asker.terms), asker.say)
    if isinstance(found, Refused) or asker.planned_ml_per_h is None:
        return found
    rate = next(one.number.exact for one in found.found if one.name == "rate")
    change = change_caution(asker.planned_ml_per_h, rate)
    return (
        replace(found, cautions=(*found.cautions, change), unusual=(*found.unusual, change))
        if change
        else found
    )


def _dose(question: Question, asker: Asker) -> Answer | Refused:
    return rate_of_dose(_of_drug(question, asker), _measure(question, "dose"), asker.say)


def _back(question: Question, asker: Asker) -> Answer | Refused:
    return dose_of_rate(_of_drug(question, asker), question.named("dose unit"), asker.say)


def _draw(question: Question, asker: Asker) -> Answer | Refused:
    return draw_up(_of_drug(question, asker), _measure(question, "want"), asker.say)


def _strength(question: Question, asker: Asker) -> Answer | Refused:
    return strength(_of_drug(question, asker), asker.say)


def _maintenance(question: Question, asker: Asker) -> Answer | Refused:
    by = daily_maintenance if question.named("method") == "daily" else hourly_maintenance
    return by(_measure(question, "weight"), asker.terms, asker.say)


def _deficit(question: Question, asker: Asker) -> Answer | Refused:
    percent, over_min = _measure(question, "percent").value, _measure(question, "time").value
    return deficit(_measure(question, "weight"), percent, over_min, asker.terms, asker.say)


def _burn(question: Question, asker: Asker) -> Answer | Refused:
    weight, percent, since = (_measure(question, name) for name in ("weight", "percent", "since"))
    burn = Burn(weight, percent.value, since.value, question.value("given"))
    return burn_plan(burn, question.named("formula"), asker.terms, asker.say)


def _bolus(question: Question, asker: Asker) -> Answer | Refused:
    per_kg = _measure(question, "volume per kg").value
    return bolus(_measure(question, "weight"), per_kg, question.value("time"), asker.terms, asker.say)


def _of_drug(question: Question, asker: Asker) -> DoseQuestion:
    mix = Mix(_measure(question, "drug"), _measure(question, "bag").value, question.named("name"))
    flow = replace(_known(question), volume_ml=None, time_min=None)
    return DoseQuestion(mix, question.measure("weight"), flow, terms=asker.terms)


def _known(question: Question) -> Flow:
    """What is told of the flow."""
    return flow_of({name: value for name in UNITS if (value := question.value(name)) is not None})


def _measure(question: Question, name: str) -> Measure:
    """A quantity that the question does not lack."""
    measure = question.measure(name)
    assert measure is not None
    return measure


_ANSWERS: Mapping[Subject, Callable[[Question, Asker], Answer | Refused]] = MappingProxyType(
    {
        Subject.FLOW: _flow,
        Subject.BAGS: _one_of_flow("bags per day"),
        Subject.BEAT: _one_of_flow("seconds per drop"),
        Subject.COUNT: _count,
        Subject.CATCH_UP: _catch_up,
        Subject.DOSE: _dose,
        Subject.BACK: _back,
        Subject.DRAW: _draw,
        Subject.STRENGTH: _strength,
        Subject.MAINTENANCE: _maintenance,
        Subject.DEFICIT: _deficit,
        Subject.BURN: _burn,
        Subject.BOLUS: _bolus,
    }
)
"""By subject, what works it out."""
