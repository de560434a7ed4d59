"""How a checklist that is open over another is left, and how the session ends."""

from __future__ import annotations

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Say
from handsfree.care.decision import Decision


def leave(decision: Decision, _: Say) -> None:
    """Back to the checklist underneath, with whatever is open left open."""
    if decision.session.under is None:
        decision.add(e.CommandRefused(refusals.NO_OTHER_CHECKLIST))
    else:
        decision.end_checklist("left")


def end_session(decision: Decision, how: str) -> None:
    """End the session, and with it whatever checklist is open over its own."""
    while decision.session.under is not None:
        decision.close_checklist("left")
    decision.add(e.SessionEnded(how))
