"""Which sentence says why a command that is known is not open now. Pure."""

from __future__ import annotations

from handsfree.care import refusals
from handsfree.care.checklist import Checklist
from handsfree.care.rules import OPEN, Mode
from handsfree.care.session import Session


def why_closed(session: Session, *rules: str) -> str:
    """Why a command makes no sense now. rules: all that it could be; a number could be much."""
    if any(walk.sharp_open for walk in session.walks):
        return refusals.NEEDLE_FIRST
    if session.mode is Mode.CONFIRMING:
        return refusals.CONFIRM_FIRST
    return next(filter(None, (_why(session, rule) for rule in rules)), _default(session, rules[0]))


def _default(session: Session, rule: str) -> str:
    if rule in OPEN:
        return refusals.NO_SENSE
    if session.under is not None:
        return refusals.go_on_with(session.checklist.title)
    return refusals.NO_STEP


def _why(session: Session, rule: str) -> str:
    other = session.own_checklist.other(rule)
    if other is not None:
        return _not_begun(session, other)
    if session.mode is Mode.STOPPED and OPEN.get(rule) == frozenset({Mode.WALKING}):
        return refusals.IS_STOPPED
    if rule == "line" and session.others:
        return refusals.ARM_FIRST
    return refusals.CLOSED.get(rule, "")


def _not_begun(session: Session, other: Checklist) -> str:
    """Why another checklist cannot begin over the one at hand."""
    needs = other.begin.needs if other.begin else ""
    if other.name in [walk.checklist.name for walk in session.walks]:
        return refusals.is_open(other.title)
    if needs and needs not in session.since:
        return refusals.needs(other.title, needs, session.name if session.others else "")
    return refusals.waits_for(other.title, session.checklist.title)
