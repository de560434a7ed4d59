"""How events change what a session remembers: clocks, the bag, reminders. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from fractions import Fraction
from typing import assert_never

from handsfree.care import events as e
from handsfree.care.reminders.bag import Bag
from handsfree.care.reminders.reminder import KINDS, OWN, Reminder
from handsfree.care.session import Session

_ToldEvent = e.BagHung | e.LevelReported | e.TubingChanged | e.CaseTold

ReminderEvent = (
    e.ReminderSet | e.ReminderDropped | e.ReminderDue | e.ReminderPostponed | e.ReminderAnswered | _ToldEvent
)


def remembered(session: Session, event: ReminderEvent, at: datetime) -> Session:
    """The session after an event about reminders, or about what they are counted from."""
    match event:
        case e.ReminderSet(kind, due, name):
            others = tuple(one for one in session.reminders if one.kind != kind or kind == OWN)
            return replace(session, reminders=(*others, Reminder(kind, due, due, name)))
        case e.ReminderDropped(kind):
            return replace(session, reminders=tuple(one for one in session.reminders if one.kind != kind))
        case e.ReminderDue(kind, name, due, times):
            one = session.reminder((kind, name, due))
            return _with(session, replace(one, said=times, next=one.again(at)))
        case e.ReminderPostponed(kind, name, due, until):
            return _with(session, replace(session.reminder((kind, name, due)), next=until))
        case e.ReminderAnswered("own" as kind, name, due):
            left = tuple(one for one in session.reminders if one.key != (kind, name, due))
            return replace(session, reminders=left)
        case e.ReminderAnswered(kind, name, due):
            answered = _with(session, replace(session.reminder((kind, name, due)), answered=True))
            return begun(answered, (KINDS[kind].clock,), at) if KINDS[kind].comes_again else answered
        case _:
            return _told(session, event, at)


def _told(session: Session, event: _ToldEvent, at: datetime) -> Session:
    """What the user said of bag, set and patient."""
    bag = session.bag
    match event:
        case e.BagHung(volume_ml):
            hung = begun(session, ("bag", "flow"), at)
            return replace(hung, bag=bag.next(volume_ml, at)) if bag else session
        case e.LevelReported(left_ml):
            return replace(session, bag=bag and bag.seen(left_ml, at))
        case e.TubingChanged():
            return begun(session, ("tubing",), at)
        case e.CaseTold(case):
            return replace(session, cases=tuple(dict.fromkeys((*session.cases, case))))
        case _:
            assert_never(event)


def begun(session: Session, clocks: Iterable[str], at: datetime) -> Session:
    """Clocks that begin now."""
    since = dict.fromkeys(clocks, at)
    return replace(session, since={**session.since, **since}) if since else session


def closed(session: Session, clocks: tuple[str, ...], at: datetime) -> Session:
    """A step was closed that begins these clocks; with the flow the bag runs at the rate of the order.

    A bag that was hung since the last one was heard of is full.
    """
    session = begun(session, clocks, at)
    if "flow" not in clocks or session.rate is None:
        return session
    ordered_ml, rate, bag = session.rate.volume_ml, session.rate.rate_ml_per_h, session.bag
    if bag is None:
        return replace(session, bag=Bag(ordered_ml, ordered_ml, at, rate))
    if session.since.get("bag", bag.at) > bag.at:
        return replace(session, bag=bag.next(_volume(session) or bag.full_ml, at))
    return replace(session, bag=bag.ordered(ordered_ml, rate, at))


def _volume(session: Session) -> Fraction | None:
    """The volume that was said in this walk, of another bag."""
    said = (mark.value for mark in session.marks.values() if mark.kind == "volume")
    return next((Fraction(value) for value in said), None) if session.under else None


def ended(session: Session, clocks: Iterable[str]) -> Session:
    """What these clocks counted is over: the cannula is out, the count was wrong."""
    gone = set(clocks)
    if not gone:
        return session
    since = {clock: at for clock, at in session.since.items() if clock not in gone}
    return replace(session, since=since, bag=None if "flow" in gone else session.bag)


def noted(session: Session, name: str, at: datetime) -> Session:
    """Something was found of a line that is in, to be handed over: each once, with its last time."""
    if "catheter" not in session.since:
        return session
    others = tuple(one for one in session.found if one.finding != name)
    return replace(session, found=(*others, e.Found(name, at)))


def set_back(session: Session, by: timedelta) -> Session:
    """The session on a clock that was set back: what was so long ago, or so far ahead, still is."""
    bag = session.bag
    return replace(
        session,
        since={clock: at - by for clock, at in session.since.items()},
        bag=replace(bag, at=bag.at - by) if bag else None,
        reminders=tuple(replace(one, due=one.due - by, next=one.next - by) for one in session.reminders),
        timers=tuple(replace(one, due=one.due - by) for one in session.timers),
        under=set_back(session.under, by) if session.under else None,
    )


def taken_back(before: tuple[Reminder, ...], now: tuple[Reminder, ...]) -> tuple[Reminder, ...]:
    """The reminders of before the last change: answers are taken back, what was said since is not."""
    said = {one.key: one for one in now if not one.answered}
    return tuple(said.get(one.key, one) for one in before)


def _with(session: Session, reminder: Reminder) -> Session:
    changed = tuple(reminder if one.key == reminder.key else one for one in session.reminders)
    return replace(session, reminders=changed)
