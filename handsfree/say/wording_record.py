"""The record in a few spoken sentences: order, rate, line, what was left out, waits or is open. Pure."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.care.session import Session, State
from handsfree.say.numbers import doubled
from handsfree.say.wording_left import MOST_CHOICES, gone_on, left
from handsfree.say.wording_places import drop_rate_words
from handsfree.say.wording_reminders import reminder_words
from handsfree.say.wording_values import capital, value_words
from handsfree.words import worded

_ORDER = ("fluid", "volume", "infusion_time", "rate")
_LINE = ("gauge", "site")


def spoken_record(session: Session) -> str:
    """What stands in the record, as far as it matters to whoever looks after the line now.

    Nothing that names a patient is in it: others may hear.
    """
    return " ".join((*_sentences(session), left(session)))


def _sentences(session: Session) -> Iterator[str]:
    yield from _list(worded("Ordered"), _values(session, _ORDER))
    if session.rate is not None:
        yield worded("Rate: {rate}.", rate=drop_rate_words(session.rate, doubled))
    yield from _list(worded("Line"), _values(session, _LINE))
    if session.attempts:
        yield f"{capital(value_words('attempts', str(session.attempts)))}."
    out = [step.name for step in session.checklist.steps if session.mark(step.name).state is State.SKIPPED]
    yield from _list(worded("Left out"), [name.replace("_", " ") for name in out[:MOST_CHOICES]])
    if passed := session.gone_on_at():
        yield gone_on(passed)
    waiting = dict.fromkeys(reminder_words(one.kind, one.name).name for one in session.latched())
    yield from _list(worded("Not answered"), list(waiting))


def _list(head: str, parts: list[str]) -> Iterator[str]:
    if parts:
        yield f"{head}: {', '.join(parts)}."


def _values(session: Session, kinds: tuple[str, ...]) -> list[str]:
    """The values of these kinds that steps were closed with, in the order of the checklist."""
    marks = (session.mark(step.name) for step in session.checklist.steps)
    return [value_words(mark.kind, mark.value) for mark in marks if mark.kind in kinds]
