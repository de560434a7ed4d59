"""Several lines or patients: each is a session of its own, and one of them is at hand. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from handsfree.care import events as e
from handsfree.care.evolution import evolve
from handsfree.care.session import Session

_OF_ALL = (e.SessionResumed, e.SessionEnded)
"""What happens to every line at once."""


def evolve_lines(session: Session, event: e.Event, at: datetime) -> Session:
    """The session after an event, which is about the line at hand unless it says otherwise."""
    match event:
        case e.LineNamed(name):
            return replace(session, name=name)
        case e.LineBegun(name):
            return _begun(session, name, at)
        case e.LineTaken(name):
            return _taken(session, name)
        case e.LineAside(name):
            return replace(_taken(session, name), aside_of=session.name)
        case e.LineResumed(name):
            return replace(_taken(session, name), aside_of="")
    if not session.name:
        return evolve(session, event, at)
    others = session.others
    if isinstance(event, _OF_ALL):
        others = tuple(evolve(one, event, at) for one in others)
    after = evolve(replace(session, others=()), event, at)
    return replace(after, name=session.name, others=others, aside_of=session.aside_of)


def _begun(session: Session, name: str, at: datetime) -> Session:
    new = Session(
        session.own_checklist,
        at,
        session.utc_offset_min,
        session.reads_back,
        intervals=session.intervals,
        limits=session.limits,
        signs_after_s=session.signs_after_s,
        sign_due=session.sign_due,
        name=name,
    )
    return replace(new, others=(*session.others, _put_aside(session)))


def _taken(session: Session, name: str) -> Session:
    """The session of the line of that name, with all the others beside it. Raises KeyError."""
    if name == session.name:
        return session
    one = session.line(name)
    others = tuple(other for other in session.others if other.name != name)
    return replace(
        one, others=(*others, _put_aside(session)), reads_back=session.reads_back, sign_due=session.sign_due
    )


def _put_aside(session: Session) -> Session:
    return replace(session, others=(), aside_of="")
