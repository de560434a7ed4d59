"""What can be told of a running line: how much is in and left, what is due, and what was found. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.scores import score_told
from handsfree.care.session import Session


def bag_told(session: Session, at: datetime, *, given: bool = False) -> e.BagTold | e.CommandRefused:
    """How much is left in the bag and how long it lasts. given: also how much has run in."""
    bag = session.bag
    if bag is None:
        return e.CommandRefused(refusals.NO_BAG)
    left_s = max(0, int((bag.empty_at() - at).total_seconds()))
    return e.BagTold(bag.left(at), left_s, bag.given(at) if given else None)


def dues(session: Session, at: datetime) -> tuple[e.UpcomingTold, ...]:
    """All that is to be remembered and not answered, the next first."""
    waiting = sorted((one for one in session.reminders if not one.answered), key=lambda one: one.due)
    return tuple(e.UpcomingTold(one.kind, one.name, int((one.due - at).total_seconds())) for one in waiting)


def _problems(session: Session, _: datetime) -> e.Event:
    own = session.walks[-1]
    left = tuple(step.name for step in own.left_open())
    return e.ProblemsTold(session.found, left, own.gone_on_at())


TOPICS: Mapping[str, Callable[[Session, datetime], e.Event]] = MappingProxyType(
    {
        "bag": lambda session, at: bag_told(session, at, given=True),
        "reminders": lambda session, at: e.RemindersTold(dues(session, at)),
        "problems": _problems,
        "score": score_told,
    }
)
"""What a step of a checklist can tell when it is opened, by the name in `tells`."""
