"""Which reminders there should be: worked out anew after each decision from what the session knows."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from handsfree.care import events as e
from handsfree.care.decision import Decision
from handsfree.care.reminders.policy import RUNNING, shortest
from handsfree.care.reminders.reminder import FIRST_COUNT, KINDS, OWN, Reminder
from handsfree.care.rules import Mode
from handsfree.care.session import Session


def plan(decision: Decision) -> None:
    """Set what should be and is not, or is due at another time; drop what has no ground any more."""
    if decision.session.mode is Mode.OVER or not decision.session.intervals:
        return
    known = {one.kind: one for one in decision.session.reminders if one.kind != OWN}
    wanted = dict(_wanted(decision.session, decision.at))
    for kind, due in wanted.items():
        if kind not in known or known[kind].due != due:
            if kind in known:
                _answered(decision, known[kind])
            decision.add(e.ReminderSet(kind, due))
    for kind in known:
        if kind not in wanted:
            decision.add(e.ReminderDropped(kind))


def _answered(decision: Decision, one: Reminder) -> None:
    """Note that a reminder was answered by what was done or found since it was due."""
    kind = KINDS[one.kind]
    since = decision.session.since.get(kind.clock)
    if one.latched and since is not None and since >= one.due:
        decision.add(e.ReminderAnswered(*one.key, "found" if kind.by_finding else "done"))


def remind(decision: Decision) -> None:
    """Say what is due, once each, the most urgent first."""
    due = [
        one
        for one in decision.session.reminders
        if (when := decision.session.may_say(one)) is not None and when <= decision.at
    ]
    for one in sorted(due, key=lambda one: one.rank):
        late_s = int((decision.at - one.due).total_seconds())
        decision.add(e.ReminderDue(one.kind, one.name, one.due, one.said + 1, late_s))


_RECKONED = ("recount", "bag_low", "bag_empty")
"""Kinds that are due otherwise than an interval after their clock began."""


def _wanted(session: Session, at: datetime) -> Iterator[tuple[str, datetime]]:
    """What there should be, and when; that a bag is nearly empty, only until it is."""
    for name, kind in KINDS.items():
        after = shortest(session.intervals, name, _cases(session))
        since = session.since.get(kind.clock)
        if name not in _RECKONED and since is not None and after is not None:
            yield name, since + after
    yield from _recount(session)
    lead = shortest(session.intervals, "bag_low", _cases(session))
    if session.bag is not None:
        empty_at = session.bag.empty_at()
        yield "bag_empty", empty_at
        if lead is not None and at < empty_at:
            yield "bag_low", empty_at - lead


def _cases(session: Session) -> tuple[str, ...]:
    """What was said, and what follows from the clocks."""
    return (*session.cases, RUNNING) if "flow" in session.since else session.cases


def _recount(session: Session) -> Iterator[tuple[str, datetime]]:
    """Some time after the clamp was set, and then from count to count."""
    flow, count = session.since.get("flow"), session.since.get("count")
    first = shortest(session.intervals, FIRST_COUNT, _cases(session))
    after = shortest(session.intervals, "recount", _cases(session))
    if flow is None:
        return
    if first is not None and (count is None or count < flow + first):
        yield "recount", flow + first
    elif after is not None:
        yield "recount", max(flow, count or flow) + after
