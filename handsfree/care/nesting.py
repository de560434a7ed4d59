"""A checklist that begins over another, and the way back to the step where one was. Pure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from handsfree.care.checklist import ANY_BRANCH, Checklist
from handsfree.care.session import Session
from handsfree.care.timers import Timer


def beginnable(session: Session) -> tuple[Checklist, ...]:
    """The checklists that may begin over the one at hand now."""
    return tuple(one for one in askable(session) if one.begin and one.begin.needs in ("", *session.since))


def askable(session: Session) -> tuple[Checklist, ...]:
    """The checklists that can be asked for over the one at hand: none twice, and none beside an open sharp.

    Some have to wait: without a line there is no site to look at.
    """
    if any(walk.sharp_open for walk in session.walks):
        return ()
    at_hand = {walk.checklist.name for walk in session.walks}
    others = (
        session.own_checklist.other(name) for name in session.checklist.may_begin if name not in at_hand
    )
    return tuple(one for one in others if one is not None and one.begin is not None)


def inside(session: Session, name: str) -> Session:
    """The session at the beginning of another checklist. What is known of line, bag and patient goes along.

    Raises KeyError where there is no such checklist.
    """
    checklist = session.own_checklist.other(name)
    if checklist is None:
        raise KeyError(name)
    branch = session.branch if session.branch in checklist.branches else ANY_BRANCH
    new = Session(checklist, session.started, session.utc_offset_min, branch=branch)
    return replace(_with_line(new, session), rate=session.rate, under=replace(session, befores=()))


def back(session: Session) -> Session:
    """The session underneath, at the step where it was, with what became of line, bag and patient."""
    return _with_line(session.under, session) if session.under else session


def _with_line(session: Session, now: Session) -> Session:
    """A session with all that does not belong to one walk, as another one has it."""
    return replace(
        session,
        reads_back=now.reads_back,
        befores=now.befores,
        signs_after_s=now.signs_after_s,
        sign_due=now.sign_due,
        intervals=now.intervals,
        limits=now.limits,
        cases=now.cases,
        asked=now.asked,
        since=now.since,
        bag=now.bag,
        reminders=now.reminders,
        found=now.found,
    )


def with_timers(session: Session, change: Callable[[tuple[Timer, ...]], tuple[Timer, ...]]) -> Session:
    """The session with its timers changed, and those of the walks underneath."""
    under = with_timers(session.under, change) if session.under else None
    return replace(session, timers=change(session.timers), under=under)
