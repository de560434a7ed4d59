"""Values that count only once they were read back and confirmed."""

from __future__ import annotations

from handsfree.care import events as e
from handsfree.care.decision import Decision
from handsfree.care.infusion.refused import Refused
from handsfree.care.order import computed, objections
from handsfree.care.rules import Mode
from handsfree.care.session import State


def read_back(decision: Decision) -> None:
    """Read the proposal back. What is impossible drops it; what is unusual is to be confirmed twice."""
    proposal = decision.session.proposal
    assert proposal is not None
    found = objections(decision.session, proposal.values)
    impossible = next((one.reason for one in found if one.hard), "")
    if impossible:
        drop(decision, impossible)
    else:
        reasons = (*(one.reason for one in found), *proposal.besides)
        decision.add(e.ReadBack(tuple(dict.fromkeys(reasons))))


def confirm(decision: Decision) -> None:
    """Close the steps of the confirmed values, compute the rate once all is there, and go on."""
    proposal = decision.session.proposal
    assert proposal is not None
    if proposal.unusual and not proposal.confirmed:
        decision.add(e.ConfirmedOnce())
        return
    decision.add(e.ProposalConfirmed())
    for step, (kind, value) in proposal.values.items():
        decision.close(e.StepClosed(step, kind, value, confirmed=True))
    _compute(decision)
    if decision.session.mode is Mode.WALKING:
        decision.move_on()


def drop(decision: Decision, why: str) -> None:
    """Forget the proposal; nothing has changed, and the question is asked again, unless silence is kept or
    something else is asked."""
    confirming = decision.session.mode is Mode.CONFIRMING
    decision.add(e.ProposalDropped(why))
    if confirming or decision.session.mode in (Mode.WALKING, Mode.STOPPED):
        decision.again()


def _compute(decision: Decision) -> None:
    before = decision.session.rate
    rate = computed(decision.session)
    if isinstance(rate, Refused):
        decision.add(e.CommandRefused(rate.reason))
    elif rate is not None and rate != before:
        decision.add(rate)
        stale = _closed_by_rate(decision)
        if stale:
            decision.add(e.StepsReopened(stale, "new rate"))


def _closed_by_rate(decision: Decision) -> tuple[str, ...]:
    """Steps that were done at the old rate."""
    session = decision.session
    return tuple(
        step.name
        for step in session.checklist.steps
        if ("{drop_rate}" in step.do or "count" in step.value)
        and session.mark(step.name).state is State.CLOSED
    )
