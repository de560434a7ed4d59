"""What is said of questions about numbers: what was understood, what follows, and what is missing. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.infusion.answer import Answer
from handsfree.care.infusion.answer import duration as hours_and_minutes
from handsfree.care.infusion.sheet import STANDING_CAUTION
from handsfree.care.questions.plan import asker
from handsfree.care.questions.question import Question, read_question
from handsfree.care.questions.working import answer
from handsfree.care.session import Session
from handsfree.say.calendar import clock_words
from handsfree.say.numbers import doubled, spoken
from handsfree.say.quantities import duration, quantity
from handsfree.say.wording_places import aloud
from handsfree.say.wording_values import capital

MOST_WORDS = 40
"""In one breath; what does not fit is in the record, and on paper from the keyboard."""


def _said(number: Fraction | int, unit: str) -> str:
    return quantity(number, unit, doubled)


def _answered(event: e.QuestionAnswered, session: Session, _: object) -> str:
    """What was understood, what follows, and what is unusual of it; then counts and cautions as they fit."""
    question = read_question(event.question)
    found = answer(question, asker(question, session, _said))
    assert isinstance(found, Answer)
    first, *more = found.says.removesuffix(".").split("; ")
    unusual = " ".join(aloud(one) for one in found.unusual)
    others = (aloud(one) for one in found.cautions if one not in (STANDING_CAUTION, *found.unusual))
    said = f"{capital(_told(question))}: {first}. {unusual}".strip()
    return _fitting(said, [*(f"{capital(one)}." for one in more), *others])


def _fitting(first: str, others: Iterable[str]) -> str:
    said = first
    for one in others:
        if len(f"{said} {one}".split()) > MOST_WORDS:
            break
        said = f"{said} {one}"
    return said


def _told(question: Question) -> str:
    """What was understood, so that who asked hears a wrong number."""
    return ", ".join(_TOLD.get(name, "{}").format(_part(question, name)) for name in question.told)


def _part(question: Question, name: str) -> str:
    if name in _NAMES:
        return _NAMES[name].get(question.named(name), question.named(name))
    if name == "count":
        drops, over_s = question.named(name).split("/")
        return f"{doubled(int(drops))} drops in {spoken(int(over_s))} seconds"
    measure = question.measure(name)
    assert measure is not None
    if measure.unit != "min":
        return _said(measure.value, measure.unit)
    return hours_and_minutes(measure.value, _said) or "a moment"


_TOLD: Mapping[str, str] = MappingProxyType(
    {
        "time": "over {}",
        "rate": "at {}",
        "bag": "in {}",
        "since": "burnt {} ago",
        "given": "{} given",
        "left": "{} left",
        "time left": "{} to go",
    }
)

_NAMES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "formula": {
            "parkland": "Parkland",
            "rule-of-ten": "rule of ten",
            "us-army": "U S army",
            "aba": "American burn",
            "aba-electrical": "electrical",
            "rcem-2": "college two",
            "rcem-3": "college three",
            "rcem-4": "college four",
        },
        "method": {"hourly": "by the hour", "daily": "by the day"},
        "name": {},
        "patient": {},
        "dose unit": {},
    }
)
"""Parts that are names, and how those are said that are written otherwise."""

_MISSING: Mapping[str, str] = MappingProxyType(
    {
        "volume": "What volume?",
        "time": "Over what time, or at what rate?",
        "rate": "At what rate?",
        "drop rate": "How many drops a minute?",
        "drop factor": "How many drops a millilitre has the set?",
        "count": "How many drops, in how many seconds?",
        "left": "How much is left?",
        "time left": "How much time is left?",
        "dose": "What dose?",
        "drug": "How much of the drug, in what volume?",
        "bag": "In what volume?",
        "want": "How much of the drug is wanted?",
        "weight": "What weight?",
        "method": "By the hour, or by the day? They do not give the same.",
        "percent": "How many percent?",
        "formula": "Parkland, rule of ten, U S army, American burn, or college two, three or four?",
        "since": "How long ago was the burn?",
        "given": "How much was given since the burn?",
        "volume per kg": "How many millilitres a kilogram are ordered?",
    }
)
"""By what a question lacks, how it is asked for."""


def _finish(event: e.FinishTold, session: Session, _: object) -> str:
    when = clock_words(session.local(event.ends).time())
    left = duration(event.left_s // 60 * 60) if event.left_s >= 60 else "less than a minute"
    how = "By the rate" if event.running else "Started now"
    return f"{how} it ends at {when}, in {left}."


QUESTION_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.QuestionAnswered: _answered,
        e.QuestionLacking: lambda event, session, _: _MISSING[event.lacks],
        e.QuestionRefused: lambda event, session, _: aloud(event.why),
        e.QuestionDropped: lambda event, session, _: "" if event.why == "lapsed" else "Never mind.",
        e.FinishTold: _finish,
    }
)
"""What each kind of event about questions says; those not named here say nothing."""
