"""Which step comes next, and which steps a rule can close."""

from __future__ import annotations

from handsfree.care.checklist import Step
from handsfree.care.reminders.reminder import LOOKED
from handsfree.care.session import Mark, Session, State
from handsfree.care.values import ground


def next_step(session: Session) -> Step | None:
    """The first open step; while a sharp is open, first what makes it safe. None when all is done."""
    steps = session.open_steps()
    if session.sharp_open:
        phase = next(step.phase for step in session.checklist.steps if step.sharp == "open")
        begun = any(
            s.sharp == "open" and session.mark(s.name).state is State.CLOSED for s in session.checklist.steps
        )
        steps = tuple(s for s in steps if s.phase == phase and (begun or s.sharp == "closed")) or steps
    return next(iter(steps), None)


def previous_step(session: Session) -> Step | None:
    """The step before the one at hand; None at the first."""
    steps = [step for step in session.checklist.steps if session.applies(step)]
    names = [step.name for step in steps]
    at = names.index(session.step) if session.step in names else len(names)
    return steps[at - 1] if at else None


def in_reach(session: Session) -> tuple[Step, ...]:
    """Steps whose words can be said now: those of the phase at hand, those open at any time, and those by
    which a reminder is answered, once they were closed."""
    here, again = phase_at_hand(session), {step.name for step in answering(session)}
    steps = session.checklist.steps
    words = {step.words for step in steps if step.anytime}
    return tuple(
        s
        for s in steps
        if (s.phase == here or (s.words and s.words in words) or s.name in again) and session.applies(s)
    )


def answering(session: Session) -> tuple[Step, ...]:
    """Steps that were closed and whose words, said again, answer a reminder."""
    return tuple(
        step
        for step in session.checklist.steps
        if step.clocks
        and LOOKED.issuperset(step.clocks)
        and session.since.keys() >= set(step.clocks)
        and session.mark(step.name).state is State.CLOSED
    )


def phase_at_hand(session: Session) -> str:
    """Name of the phase of the step at hand; the last phase when all is done."""
    step = session.step or session.checklist.steps[-1].name
    return session.checklist.step(step).phase


def target(session: Session, rule: str) -> Step | None:
    """The step that an answer is for: the one at hand, else the first open one that may be closed, else
    the last closed one, else the first open one; None where no step in reach takes it."""
    takers = [step for step in in_reach(session) if rule in step.rules]
    at_hand = [step for step in takers if step.name == session.step]
    still_open = [step for step in takers if session.mark(step.name).state is not State.CLOSED]
    ready = [step for step in still_open if not missing(session, step)]
    closed = [step for step in takers[::-1] if step not in still_open]
    for choice in (at_hand, ready, closed, still_open):
        if choice:
            return choice[0]
    return None


def ended_by(session: Session, step: Step) -> tuple[str, ...]:
    """The closed steps that end what the step begins: a tie, an open sharp."""
    closing = [one.name for one in session.checklist.steps if step.sharp == "open" and one.sharp == "closed"]
    return tuple(name for name in (*step.until, *closing) if session.mark(name).state is State.CLOSED)


def contradicted_by(session: Session, step: Step) -> tuple[str, ...]:
    """The closed steps that were compared with this one, and do not go with it any more."""
    compared = (one for one in session.checklist.steps if step.name in (one.must_equal, one.must_avoid))
    return tuple(one.name for one in compared if disagreement(session, one, session.value(one.name))[0])


def disagreement(session: Session, step: Step, value: str) -> tuple[str, Mark]:
    """Why a value does not go with what the step is compared with, and that; no reason where it does."""
    equal, avoided = session.mark(step.must_equal), session.mark(step.must_avoid)
    why = ground(value, equal.value, avoided.value)
    return why, equal if why == "differs" else avoided


def missing(session: Session, step: Step) -> Step | None:
    """The first step that must be done before this one and is not; skipped with a reason counts as done."""
    done = (State.CLOSED, State.SKIPPED)
    names = (name for name in step.after if session.mark(name).state not in done)
    needed = (session.checklist.step(name) for name in names)
    return next((one for one in needed if session.applies(one)), None)
