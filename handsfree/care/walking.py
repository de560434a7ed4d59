"""From step to step by command: next, back, the short path, a new order."""

from __future__ import annotations

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.answers import answer
from handsfree.care.checklist import ANY_BRANCH
from handsfree.care.commands import Answer, Say
from handsfree.care.decision import Decision
from handsfree.care.path import previous_step
from handsfree.care.rules import Mode
from handsfree.care.session import State
from handsfree.care.values import KINDS


def go_on(decision: Decision, _: Say) -> None:
    """Go to the next step; "next" closes no value and no critical step."""
    session = decision.session
    if not session.step:
        decision.add(e.Told("complete"))
        return
    step = session.checklist.step(session.step)
    if session.mark(step.name).state is State.OPEN:
        if step.value:
            decision.add(e.CommandRefused(refusals.WANTS_VALUE))
            return
        if step.critical:
            decision.add(e.CommandRefused(refusals.IS_CRITICAL))
            return
        answer(decision, Answer(step.words))
    if decision.session.mode is Mode.WALKING and not decision.has(e.CommandRefused):
        decision.move_on()


def go_back(decision: Decision, _: Say) -> None:
    """Have the step before at hand again."""
    step = previous_step(decision.session)
    if step is None:
        decision.add(e.CommandRefused(refusals.FIRST_STEP))
    elif decision.session.sharp_open:
        decision.add(e.CommandRefused(refusals.NEEDLE_FIRST))
    else:
        decision.open(step.name, again=True)


def new_order(decision: Decision, _: Say) -> None:
    """Open what the order says again; the line runs on until it is set anew."""
    session = decision.session
    ordered = tuple(
        s.name
        for s in session.checklist.steps
        if s.confirm
        or any(KINDS[kind].field in ("volume_ml", "time_min", "rate_ml_per_h") for kind in s.value)
    )
    if session.proposal is not None:
        decision.add(e.ProposalDropped("new order"))
    if session.branch:
        decision.add(e.BranchChosen(ANY_BRANCH))
    decision.add(e.StepsReopened(ordered, "new order"))
    decision.lift_stop()
    decision.move_on()


def shorten(decision: Decision, _: Say) -> None:
    """Ask only for what is critical from now on."""
    decision.add(e.PathShortened())
    decision.move_on()
