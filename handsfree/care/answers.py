"""What an answer does: it closes its step, is proposed for confirmation, is refused, or stops the step."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction
from math import ceil

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.checklist import Step
from handsfree.care.closed import why_closed
from handsfree.care.commands import Answer
from handsfree.care.decision import Decision
from handsfree.care.infusion.counting import Count
from handsfree.care.path import disagreement, ended_by, missing, target
from handsfree.care.proposals import read_back
from handsfree.care.rules import Mode
from handsfree.care.session import State
from handsfree.care.timers import wait_s
from handsfree.care.values import KINDS, last_day

FLOW_TOLERANCE = Fraction(1, 10)
"""How far a counted flow may be off before it is to be set again (local policy)."""


def report(decision: Decision, answers: tuple[Answer, ...]) -> None:
    """Take answers said in one breath, then read back, or go on, or stop where one of them stops the step."""
    for one in answers:
        answer(decision, one)
        if decision.has(e.StopRaised):
            return
    if decision.has(e.ValueProposed):
        read_back(decision)
    elif decision.session.proposal is not None:
        decision.again()
    elif decision.session.mode is Mode.WALKING and decision.has(e.StepClosed):
        decision.move_on()


def answer(decision: Decision, one: Answer) -> None:
    """Take one answer."""
    session = decision.session
    step = target(session, one.rule)
    if step is None:
        decision.add(e.CommandRefused(why_closed(session, one.rule)))
        return
    was = session.mark(step.name)
    if _in_this_breath(decision, step) and not step.value:
        return
    if was.state is State.CLOSED and (step.name != session.step or _in_this_breath(decision, step)):
        _said_again(decision, step, one)
        return
    refusal = _refusal(decision, step, one)
    stop = None if refusal else _stop(decision, step, one)
    if refusal:
        decision.add(e.CommandRefused(refusal))
    elif stop is not None:
        _halt(decision, stop)
    elif step.value and (step.confirm or KINDS[one.rule].confirm or session.reads_back):
        decision.add(e.ValueProposed(step.name, one.rule, one.value))
    else:
        close(decision, step, one)


def close(decision: Decision, step: Step, one: Answer) -> None:
    """Close a step, or say that the counted flow is not what was ordered."""
    rate = decision.session.rate
    if one.rule == "count" and rate is not None:
        drops, over_s = (int(part) for part in one.value.split("/"))
        if not _near(Count(drops, Fraction(over_s)), rate.drop_rate_per_min):
            decision.add(e.FlowCounted(Fraction(drops), Fraction(over_s), rate.drop_rate_per_min))
            return
    decision.close(e.StepClosed(step.name, one.rule if step.value else "", one.value, one.words))


def _halt(decision: Decision, stop: e.StopRaised) -> None:
    """Stop the step; what was said in the same breath and waits for confirmation counts no more."""
    if decision.session.proposal is not None:
        decision.add(e.ProposalDropped("misheard"))
    decision.add(stop)


def _in_this_breath(decision: Decision, step: Step) -> bool:
    return any(isinstance(event, e.StepClosed) and event.step == step.name for event in decision.events)


def _near(count: Count, wanted_per_min: Fraction) -> bool:
    off = abs(count.drop_rate_per_min - wanted_per_min)
    return off <= max(wanted_per_min * FLOW_TOLERANCE, count.one_drop_per_min)


def _said_again(decision: Decision, step: Step, one: Answer) -> None:
    """The same again is taken, and done again where its end was said, where a clock begins anew, or where a
    finding is taken back; another value than before stops the step, and both are said."""
    before = decision.session.mark(step.name)
    found_otherwise = not step.value and bool(before.value)
    if step.clocks or found_otherwise or ended_by(decision.session, step):
        close(decision, step, one)
        return
    if (before.kind, before.value) in ((one.rule, one.value), ("", "")):
        decision.add(e.AlreadyClosed(step.name))
        return
    decision.add(e.StepsReopened((step.name,), "answers disagree"))
    _halt(decision, e.StopRaised(step.name, "disagrees", one.rule, one.value, before.kind, before.value))


def _refusal(decision: Decision, step: Step, one: Answer) -> str:
    """Why the step cannot be closed now; empty where it can."""
    session = decision.session
    needed = missing(session, step)
    if needed is not None:
        return refusals.not_before(needed.do)
    if step.wait is not None:
        since = session.mark(step.wait.since).at
        left = (
            timedelta(seconds=wait_s(step.wait, session.value)) - (decision.at - since)
            if since
            else timedelta()
        )
        if left > timedelta():
            return refusals.not_for(ceil(left.total_seconds()))
    return KINDS[one.rule].complaint(one.value) if step.value else ""


def _stop(decision: Decision, step: Step, one: Answer) -> e.StopRaised | None:
    """Whether the answer stops the step, and on what ground."""
    session, at = decision.session, decision.at
    proposed = [event for event in decision.events if isinstance(event, e.ValueProposed)]
    breath = {event.step: (event.kind, event.value) for event in proposed}
    said = (one.rule, one.value)
    earlier = breath.get(step.name, said)
    if earlier != said:
        return e.StopRaised(step.name, "disagrees", *said, *earlier)
    if step.in_date and last_day(one.value) < session.today(at):
        return e.StopRaised(step.name, "out_of_date", *said, may_override=True)
    ground, other = disagreement(session, step, one.value)
    if ground:
        return e.StopRaised(step.name, ground, *said, other.kind, other.value)
    if step.counted and int(one.value) != session.attempts:
        counted = ("attempts", str(session.attempts))
        return e.StopRaised(step.name, "attempts", *said, *counted, may_override=True)
    return None
