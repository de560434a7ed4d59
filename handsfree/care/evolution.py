"""How each event changes the session: the record folded, one event after the other. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from types import MappingProxyType
from typing import Any, assert_never, get_args

from handsfree.care import events as e
from handsfree.care.flow_by_ear import FlowEvent, begun_when_said, flowed
from handsfree.care.modes import BETWEEN, CHOICE_S, ModeEvent, awaited
from handsfree.care.nesting import back, inside, with_timers
from handsfree.care.questions.memory import QuestionEvent, asked_when_said, questioned
from handsfree.care.reminders.memory import (
    ReminderEvent,
    begun,
    closed,
    ended,
    noted,
    remembered,
    taken_back,
)
from handsfree.care.rules import Mode
from handsfree.care.session import Mark, Proposal, Session, State
from handsfree.care.signs import with_sign
from handsfree.care.timers import Timer, cues_of, waits_on
from handsfree.care.values import KINDS

READ_BACK_S = 30
"""A read-back that nobody answers lapses so many seconds after it was said to its end (common practice, no
source)."""

UNDOS = 20
"""So many changes can be taken back: a session that runs for weeks must not hold all that it ever was."""


def evolve(session: Session, event: e.Event, at: datetime) -> Session:
    """The session after an event. Events that change nothing but the record leave it as it is."""
    change = _CHANGES.get(type(event))
    return with_sign(change(session, event, at) if change else session, event, at)


def fold(session: Session, records: Iterable[e.Recorded]) -> Session:
    """The session after all of these events."""
    for record in records:
        session = evolve(session, record.event, record.at)
    return session


_StepEvent = (
    e.StepClosed
    | e.StepsReopened
    | e.AlreadyClosed
    | e.StepSkipped
    | e.StepLeftOpen
    | e.StepOpened
    | e.StopOverridden
)


def _steps(session: Session, event: _StepEvent, at: datetime) -> Session:
    """Where steps stand, and which one is at hand."""
    match event:
        case e.StepClosed():
            return _closed(session, event, at)
        case e.StepsReopened(steps, because):
            return _reopened(session, steps, because)
        case e.AlreadyClosed(step):
            return replace(session, timers=_without_stopped(session, step))
        case e.StepSkipped(step, reason):
            return replace(_marked(session, step, Mark(State.SKIPPED, at, reason=reason)), mode=Mode.WALKING)
        case e.StepLeftOpen(step):
            return _marked(session, step, Mark(State.LEFT, at))
        case e.StepOpened(step):
            return replace(session, step=step)
        case e.StopOverridden(step, reason):
            marked = _marked(session, step, Mark(reason=reason, passed_over=True))
            return replace(marked, mode=Mode.WALKING, stop=None)
        case _:
            assert_never(event)


_ValueEvent = (
    e.ValueProposed | e.ReadBack | e.ConfirmedOnce | e.ProposalConfirmed | e.ProposalDropped | e.RateComputed
)


def _values(session: Session, event: _ValueEvent, at: datetime) -> Session:
    """Values on their way from the read-back to the record."""
    due = at + timedelta(seconds=READ_BACK_S)
    known = session.proposal
    match event:
        case e.ValueProposed(step, kind, value):
            values = {**(known.values if known else {}), step: (kind, value)}
            besides = known.besides if known else ()
            return replace(session, proposal=Proposal(values, due, besides=besides))
        case e.ReadBack(unusual) if known:
            proposal = replace(known, due=due, unusual=unusual, confirmed=False, asked=False)
            return replace(session, mode=Mode.CONFIRMING, proposal=proposal)
        case e.ConfirmedOnce() if known:
            return replace(session, proposal=replace(known, due=due, confirmed=True, asked=False))
        case e.ProposalConfirmed():
            return replace(session, proposal=None, mode=Mode.WALKING)
        case e.ProposalDropped():
            return _without_proposal(session)
        case e.RateComputed():
            return replace(session, rate=event)
        case e.ReadBack() | e.ConfirmedOnce():
            return session
        case _:
            assert_never(event)


_CourseEvent = (
    e.StopRaised
    | e.StopLifted
    | e.FindingReported
    | e.BranchChosen
    | e.PathShortened
    | e.ChecklistBegun
    | e.ChecklistEnded
    | e.CueFired
    | e.SpeechUnderstood
    | e.SpeechNotUnderstood
    | e.Undone
)


def _course(session: Session, event: _CourseEvent, at: datetime) -> Session:
    """What turns the course: stops, findings, branches, undo; and what was heard."""
    match event:
        case e.StopRaised(step):
            return replace(session, mode=Mode.STOPPED, step=step, stop=event)
        case e.StopLifted():
            return replace(session, mode=Mode.WALKING, stop=None)
        case e.FindingReported(name):
            return _found(session, name, at)
        case e.BranchChosen(branch):
            return replace(session, branch=branch)
        case e.PathShortened():
            return replace(session, short=True)
        case e.ChecklistBegun(name):
            return inside(session, name)
        case e.ChecklistEnded():
            return back(session)
        case e.CueFired(step, say, due=due):
            fired = (step, say, due)
            return with_timers(
                session, lambda timers: tuple(t for t in timers if (t.step, t.say, t.due) != fired)
            )
        case e.SpeechUnderstood(changes=changes):
            return replace(session, misses=0, befores=_befores(session) if changes else session.befores)
        case e.SpeechNotUnderstood():
            return replace(session, misses=session.misses + 1)
        case e.Undone():
            return _undone(session, at)
        case _:
            assert_never(event)


_PlayedEvent = e.Played | e.PlayingFailed


def _played(session: Session, _: _PlayedEvent, at: datetime) -> Session:
    """A question can be answered from when it was said; its time runs from then. What could not be said aloud
    was printed."""
    if session.mode is Mode.ASKING and session.asked:
        return replace(session, asked=asked_when_said(session.asked, at))
    proposal, choice, window = session.proposal, session.choice, session.window
    if proposal is None and choice is None and window is None:
        return session
    if proposal is not None and session.mode is Mode.CONFIRMING and not proposal.asked:
        proposal = replace(proposal, due=at + timedelta(seconds=READ_BACK_S), asked=True)
    if choice is not None:
        choice = replace(choice, due=at + timedelta(seconds=CHOICE_S))
    if window is not None:
        window = begun_when_said(window, at)
    return replace(session, proposal=proposal, choice=choice, window=window)


_CHANGES: Mapping[type[e.Event], Callable[[Session, Any, datetime], Session]] = MappingProxyType(
    {
        **dict.fromkeys(get_args(_StepEvent), _steps),
        **dict.fromkeys(get_args(_ValueEvent), _values),
        **dict.fromkeys(get_args(_CourseEvent), _course),
        **dict.fromkeys(get_args(ModeEvent), awaited),
        **dict.fromkeys(get_args(_PlayedEvent), _played),
        **dict.fromkeys(get_args(QuestionEvent), questioned),
        **dict.fromkeys(get_args(FlowEvent), flowed),
        **dict.fromkeys(get_args(ReminderEvent), remembered),
    }
)
"""By kind of event, what changes the session; the others are for the record alone."""


def _without_proposal(session: Session) -> Session:
    """Back to the step; silence, a pause or a question that came in between goes on."""
    back = Mode.STOPPED if session.stop else Mode.WALKING
    if session.mode in BETWEEN:
        return replace(session, proposal=None, was=back if session.was is Mode.CONFIRMING else session.was)
    return replace(session, proposal=None, mode=back)


def _marked(session: Session, step: str, mark: Mark) -> Session:
    return replace(session, marks={**session.marks, step: mark}, misses=0)


def _closed(session: Session, event: e.StepClosed, at: datetime) -> Session:
    step = session.checklist.step(event.step)
    was = session.mark(step.name)
    mark = Mark(State.CLOSED, at, event.kind, event.value)
    if was.passed_over and was.state is State.OPEN:
        mark = replace(mark, reason=was.reason, passed_over=True)
    kept = tuple(t for t in _without_stopped(session, step.name) if t.step != step.name)
    begun = (*cues_of(step, at), *waits_on(step, session.checklist, session.value, at))
    lifted = session.stop is not None and session.stop.step == step.name
    session = closed(ended(session, step.ends), step.clocks, at)
    return replace(
        session,
        marks={**session.marks, step.name: mark},
        misses=0,
        timers=tuple(sorted((*kept, *begun), key=lambda timer: timer.due)),
        sharp_open=step.sharp_after(session.sharp_open),
        attempts=session.attempts + step.attempt,
        stop=None if lifted else session.stop,
        mode=Mode.WALKING if lifted else session.mode,
    )


def _found(session: Session, name: str, at: datetime) -> Session:
    """Found: nothing is stopped or asked any more, nor counted where steps are to be done again."""
    finding = session.checklist.finding(name)
    if finding is None:
        return session
    failed = session.failed + (finding.attempts is not None)
    window = None if finding.reopens else session.window
    session = noted(begun(ended(session, finding.ends), finding.clocks, at), name, at)
    return replace(
        session, failed=failed, window=window, stop=None, mode=Mode.WALKING, proposal=None, choice=None
    )


def _without_stopped(session: Session, closed: str) -> tuple[Timer, ...]:
    """The timers that go on when the words of a step are said."""
    if not session.timers:
        return ()
    words = session.checklist.step(closed).words
    names = {step.name for step in session.checklist.steps if words and step.words == words} | {closed}
    return tuple(timer for timer in session.timers if not names & set(timer.until))


def _reopened(session: Session, steps: tuple[str, ...], because: str) -> Session:
    """Open again: their waits and those they began are over, and a rate that they gave counts no more.

    A finding ends the clocks of steps too; a new order or rate does not: the line runs on until it is set.
    """
    if session.checklist.finding(because) is not None:
        session = ended(session, [clock for name in steps for clock in session.checklist.step(name).clocks])
    marks = {name: mark for name, mark in session.marks.items() if name not in steps}
    begun = {one.name for one in session.checklist.steps if one.wait is not None and one.wait.since in steps}
    timers = tuple(t for t in session.timers if t.cue or t.step not in begun | set(steps))
    gave = any(KINDS[kind].field for name in steps if (kind := session.mark(name).kind))
    return replace(
        session, marks=marks, timers=timers, rate=None if gave and not session.under else session.rate
    )


def _befores(session: Session) -> tuple[Session, ...]:
    """What can be come back to, the session as it is now the last; none holds what was before itself."""
    return (*session.befores, replace(session, befores=()))[-UNDOS:]


def _undone(session: Session, at: datetime) -> Session:
    """As before the last change; what fell due meanwhile does not come again."""
    if session.before is None:
        return session
    before = with_timers(session.before, lambda timers: tuple(timer for timer in timers if timer.due > at))
    mode = Mode.WALKING if session.before.stop is None else Mode.STOPPED
    reminders = taken_back(session.before.reminders, session.reminders)
    return replace(before, mode=mode, proposal=None, reminders=reminders, befores=session.befores[:-1])
