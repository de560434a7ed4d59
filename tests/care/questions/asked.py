"""Questions in a session, and their answers as the record keeps them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, TypeVar

from handsfree.care import events as e
from handsfree.record import CODEC
from handsfree.testing.dialogue import SESSION, Talk
from tests.dialogues import EQUIPMENT, ORDER, told

Kind = TypeVar("Kind")

TO_PLAN = (*ORDER, *EQUIPMENT[:5])
"""Volume, time and set are confirmed: 1000 mL over 8 h on a 20 set."""


def asked(*said: str, after: tuple[str, ...] = ORDER, **begun: Any) -> Talk:
    """A session in which this is said. begun: more fields of `SessionStarted`."""
    return told(*said, after=after, **begun)


def answers(talk: Talk) -> list[dict[str, Fraction]]:
    """The numbers of every answer, by name, in order."""
    return [{one.name: one.exact for one in event.numbers} for event in events(talk, e.QuestionAnswered)]


def events(talk: Talk, kind: type[Kind]) -> list[Kind]:
    """What was kept of one kind."""
    decoded = [CODEC.decode(row) for row in talk.journal.read(SESSION)]
    return [event for event in decoded if isinstance(event, kind)]
