"""What is left out or passed over, and why: nothing is without a reason, which the record keeps."""

from __future__ import annotations

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Say
from handsfree.care.decision import Decision
from handsfree.care.reminders.replies import needless
from handsfree.care.session import State


def skip(decision: Decision, said: Say) -> None:
    """Leave out the step at hand, if there is a reason."""
    session = decision.session
    if not session.step:
        decision.add(e.Told("complete"))
    elif session.mark(session.step).state is State.CLOSED:
        decision.add(e.CommandRefused(refusals.IS_DONE))
    elif session.sharp_open and session.checklist.step(session.step).sharp == "closed":
        decision.add(e.CommandRefused(refusals.NEEDLE_FIRST))
    elif said.reason:
        decision.add(e.StepSkipped(session.step, said.reason))
        decision.move_on()
    else:
        decision.add(e.ReasonAsked("skip"))


def override(decision: Decision, said: Say) -> None:
    """Pass over a stop, if that may be and there is a reason."""
    stop = decision.session.stop
    assert stop is not None
    if not stop.may_override:
        decision.add(e.CommandRefused(refusals.CANNOT_BE_PASSED))
    elif said.reason:
        _overridden(decision, said.reason, "")
    else:
        decision.add(e.ReasonAsked("override"))


def reasoned(decision: Decision, reason: str, sound: str) -> None:
    """Take the reason that was asked for. sound: path of its clip, for words that no grammar holds."""
    purpose, step = decision.session.reason_for, decision.session.step
    decision.add(e.ReasonDropped())
    if purpose == "override":
        _overridden(decision, reason, sound)
    elif purpose == "reminder":
        needless(decision, reason, sound)
    else:
        decision.add(e.StepSkipped(step, reason, sound))
        decision.move_on()


def _overridden(decision: Decision, reason: str, sound: str) -> None:
    stop = decision.session.stop
    assert stop is not None
    decision.add(e.StopOverridden(stop.step, reason, sound))
    decision.close(e.StepClosed(stop.step, stop.kind, stop.value))
    decision.move_on()
