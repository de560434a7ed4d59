"""What is said of questions about numbers: what was understood, what follows, and what is missing. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.infusion.answer import Answer
from handsfree.care.infusion.rounding import duration as hours_and_minutes
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
from handsfree.words import worded

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
    return ", ".join(_TOLD.get(name, "{part}").format(part=_part(question, name)) for name in question.told)


def _part(question: Question, name: str) -> str:
    if name in _NAMES:
        return _NAMES[name].get(question.named(name), question.named(name))
    if name == "count":
        drops, over_s = question.named(name).split("/")
        return worded(
            "{drops} drops in {seconds} seconds", drops=doubled(int(drops)), seconds=spoken(int(over_s))
        )
    measure = question.measure(name)
    assert measure is not None
    if measure.unit != "min":
        return _said(measure.value, measure.unit)
    return hours_and_minutes(measure.value, _said) or worded("a moment")


_TOLD: Mapping[str, str] = MappingProxyType(
    {
        "time": worded("over {part}"),
        "rate": worded("at {part}"),
        "bag": worded("in {part}"),
        "since": worded("burnt {part} ago"),
        "given": worded("{part} given"),
        "left": worded("{part} left"),
        "time left": worded("{part} to go"),
    }
)

_NAMES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "formula": {
            "parkland": worded("Parkland"),
            "rule-of-ten": worded("rule of ten"),
            "us-army": worded("U S army"),
            "aba": worded("American burn"),
            "aba-electrical": worded("electrical"),
            "rcem-2": worded("college two"),
            "rcem-3": worded("college three"),
            "rcem-4": worded("college four"),
        },
        "method": {"hourly": worded("by the hour"), "daily": worded("by the day")},
        "name": {},
        "patient": {},
        "dose unit": {},
    }
)
"""Parts that are names, and how those are said that are written otherwise."""

_MISSING: Mapping[str, str] = MappingProxyType(
    {
        "volume": worded("What volume?"),
        "time": worded("Over what time, or at what rate?"),
        "rate": worded("At what rate?"),
        "drop rate": worded("How many drops a minute?"),
        "drop factor": worded("How many drops a millilitre has the set?"),
        "count": worded("How many drops, in how many seconds?"),
        "left": worded("How much is left?"),
        "time left": worded("How much time is left?"),
        "dose": worded("What dose?"),
        "drug": worded("How much of the drug, in what volume?"),
        "bag": worded("In what volume?"),
        "want": worded("How much of the drug is wanted?"),
        "weight": worded("What weight?"),
        "method": worded("By the hour, or by the day? They do not give the same."),
        "percent": worded("How many percent?"),
        "formula": worded("Parkland, rule of ten, U S army, American burn, or college two, three or four?"),
        "since": worded("How long ago was the burn?"),
        "given": worded("How much was given since the burn?"),
        "volume per kg": worded("How many millilitres a kilogram are ordered?"),
    }
)
"""By what a question lacks, how it is asked for."""


def _finish(event: e.FinishTold, session: Session, _: object) -> str:
    when = clock_words(session.local(event.ends).time())
    left = duration(event.left_s // 60 * 60) if event.left_s >= 60 else worded("less than a minute")
    if event.running:
        return worded("By the rate it ends at {when}, in {left}.", when=when, left=left)
    return worded("Started now it ends at {when}, in {left}.", when=when, left=left)


QUESTION_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.QuestionAnswered: _answered,
        e.QuestionLacking: lambda event, session, _: _MISSING[event.lacks],
        e.QuestionRefused: lambda event, session, _: aloud(event.why),
        e.QuestionDropped: lambda event, session, _: "" if event.why == "lapsed" else worded("Never mind."),
        e.FinishTold: _finish,
    }
)
"""What each kind of event about questions says; those not named here say nothing."""
