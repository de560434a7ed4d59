"""The session: what is known at one moment, and how each event changes it. Pure; a fold over the record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from enum import Enum

from handsfree.care import events as e
from handsfree.care.checklist import ANY_BRANCH, Checklist, Step
from handsfree.care.rules import Mode
from handsfree.care.timers import Timer, cues_of, waits_on

READ_BACK_S = 30
"""A read-back that nobody answers lapses after so many seconds (common practice, no source)."""


class State(Enum):
    """Where a step stands."""

    OPEN = "open"
    CLOSED = "closed"
    SKIPPED = "skipped"
    LEFT = "left open"


@dataclass(frozen=True, slots=True)
class Mark:
    """State of a step, since when, and the value that closed it."""

    state: State = State.OPEN
    at: datetime | None = None
    kind: str = ""
    value: str = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Proposal:
    """Values read back, by step: kind and value. due: when they lapse. unusual: confirm twice."""

    values: Mapping[str, tuple[str, str]]
    due: datetime
    unusual: tuple[str, ...] = ()
    confirmed: int = 0


@dataclass(frozen=True, slots=True)
class Session:
    """Everything the next decision depends on."""

    checklist: Checklist
    started: datetime
    utc_offset_min: int = 0
    reads_back: bool = False
    mode: Mode = Mode.WALKING
    was: Mode = Mode.WALKING
    step: str = ""
    marks: Mapping[str, Mark] = field(default_factory=dict)
    branch: str = ANY_BRANCH
    short: bool = False
    proposal: Proposal | None = None
    stop: e.StopRaised | None = None
    rate: e.RateComputed | None = None
    timers: tuple[Timer, ...] = ()
    attempts: int = 0
    failed: int = 0
    misses: int = 0
    sharp_open: bool = False
    reason_for: str = ""
    before: Session | None = None

    def mark(self, step: str) -> Mark:
        """Where a step stands."""
        return self.marks.get(step, Mark())

    def value(self, step: str) -> str:
        """The value of a closed step, empty where it has none."""
        return self.mark(step).value

    def applies(self, step: Step) -> bool:
        """Whether the step belongs to the chosen branch, or none is chosen yet."""
        chosen = self.branch or (self.checklist.branches[0] if self.checklist.branches else ANY_BRANCH)
        return step.branch in (ANY_BRANCH, chosen)

    def open_steps(self) -> tuple[Step, ...]:
        """Steps still to be done, in order; on the shortened path the critical ones."""
        return tuple(
            step
            for step in self.checklist.steps
            if self.applies(step)
            and self.mark(step.name).state is State.OPEN
            and (step.critical or not self.short)
        )

    def left_open(self) -> tuple[Step, ...]:
        """Steps that apply and were not closed, whatever the reason."""
        return tuple(
            step
            for step in self.checklist.steps
            if self.applies(step) and self.mark(step.name).state is not State.CLOSED
        )

    def local(self, at: datetime) -> datetime:
        """A time as the clock on the wall shows it."""
        return at + timedelta(minutes=self.utc_offset_min)

    def today(self, at: datetime) -> date:
        """The local date."""
        return self.local(at).date()

    def deadline(self) -> datetime | None:
        """When the next tick is due; None where nothing is."""
        dues = [timer.due for timer in self.timers] + ([self.proposal.due] if self.proposal else [])
        return min(dues, default=None)


def evolve(session: Session, event: e.Event, at: datetime) -> Session:  # noqa: PLR0912
    """The session after an event. Events that change nothing but the record leave it as it is."""
    match event:
        case e.StepClosed():
            return _closed(session, event, at)
        case e.StepsReopened():
            return _reopened(session, event.steps)
        case e.AlreadyClosed(step):
            return replace(session, timers=_without_stopped(session, step))
        case e.StepSkipped(step, reason):
            return replace(_marked(session, step, Mark(State.SKIPPED, at, reason=reason)), mode=Mode.WALKING)
        case e.StepLeftOpen(step):
            return _marked(session, step, Mark(State.LEFT, at))
        case e.StepOpened(step):
            return replace(session, step=step)
        case (
            e.ValueProposed() | e.ReadBack() | e.ConfirmedOnce() | e.ProposalConfirmed() | e.ProposalDropped()
        ):
            return _proposal(session, event, at)
        case e.RateComputed():
            return replace(session, rate=event)
        case e.StopRaised(step):
            return replace(session, mode=Mode.STOPPED, step=step, stop=event)
        case e.StopOverridden() | e.StopLifted():
            return replace(session, mode=Mode.WALKING, stop=None)
        case e.AttemptsUsedUp():
            return session
        case e.FindingReported(finding):
            known = session.checklist.finding(finding)
            counts = known is not None and known.attempts is not None
            return replace(
                session, failed=session.failed + counts, stop=None, mode=Mode.WALKING, proposal=None
            )
        case e.BranchChosen(branch):
            return replace(session, branch=branch)
        case e.PathShortened():
            return replace(session, short=True)
        case e.CueFired(step, say, due=due):
            return replace(
                session, timers=tuple(t for t in session.timers if (t.step, t.say, t.due) != (step, say, due))
            )
        case e.SpeechUnderstood(changes=changes):
            return replace(session, misses=0, before=session if changes else session.before)
        case e.SpeechNotUnderstood():
            return replace(session, misses=session.misses + 1)
        case e.Undone():
            return _undone(session, at)
        case _:
            return _modal(session, event)


def fold(session: Session, records: Iterable[e.Recorded]) -> Session:
    """The session after all of these events."""
    for record in records:
        session = evolve(session, record.event, record.at)
    return session


def _modal(session: Session, event: e.Event) -> Session:
    """Events that change only what the session waits for."""
    match event:
        case e.SessionResumed(reads_back=reads_back):
            mode = Mode.WALKING if session.mode is Mode.OVER else _returned(session).mode
            return replace(session, mode=mode, was=Mode.WALKING, reads_back=reads_back)
        case e.ReasonAsked(what):
            return replace(session, mode=Mode.REASONING, was=session.mode, reason_for=what)
        case e.Held():
            return replace(session, mode=Mode.HELD, was=_lasting(session))
        case e.ListeningPaused():
            return replace(session, mode=Mode.ASLEEP, was=_lasting(session))
        case e.EndAsked():
            return replace(
                session, mode=Mode.ENDING, was=session.was if session.mode is Mode.HELD else session.mode
            )
        case e.ReasonDropped() | e.Released() | e.ListeningResumed() | e.EndDropped():
            return _returned(session)
        case e.SessionEnded():
            return replace(session, mode=Mode.OVER, timers=(), proposal=None)
        case _:
            return session


def _lasting(session: Session) -> Mode:
    """The mode to come back to: the one before a question in between."""
    return session.was if session.mode in (Mode.REASONING, Mode.ENDING) else session.mode


def _returned(session: Session) -> Session:
    between = session.mode in (Mode.REASONING, Mode.ENDING, Mode.HELD, Mode.ASLEEP)
    return replace(session, mode=session.was if between else session.mode, was=Mode.WALKING)


def _marked(session: Session, step: str, mark: Mark) -> Session:
    return replace(session, marks={**session.marks, step: mark}, misses=0)


def _closed(session: Session, event: e.StepClosed, at: datetime) -> Session:
    step = session.checklist.step(event.step)
    mark = Mark(State.CLOSED, at, event.kind, event.value)
    kept = tuple(t for t in _without_stopped(session, step.name) if t.step != step.name)
    begun = (*cues_of(step, at), *waits_on(step, session.checklist, session.value, at))
    sharp = {"open": True, "closed": False}.get(step.sharp, session.sharp_open)
    lifted = session.stop is not None and session.stop.step == step.name
    return replace(
        _marked(session, step.name, mark),
        timers=tuple(sorted((*kept, *begun), key=lambda timer: timer.due)),
        sharp_open=sharp,
        attempts=session.attempts + step.attempt,
        stop=None if lifted else session.stop,
        mode=Mode.WALKING if lifted else session.mode,
    )


def _without_stopped(session: Session, closed: str) -> tuple[Timer, ...]:
    """The timers that go on when the words of a step are said."""
    words = session.checklist.step(closed).words
    names = {step.name for step in session.checklist.steps if words and step.words == words} | {closed}
    return tuple(timer for timer in session.timers if not names & set(timer.until))


def _reopened(session: Session, steps: tuple[str, ...]) -> Session:
    marks = {name: mark for name, mark in session.marks.items() if name not in steps}
    return replace(
        session, marks=marks, timers=tuple(t for t in session.timers if t.cue or t.step not in steps)
    )


def _proposal(session: Session, event: e.Event, at: datetime) -> Session:
    due = at + timedelta(seconds=READ_BACK_S)
    known = session.proposal
    match event:
        case e.ValueProposed(step, kind, value):
            values = {**(known.values if known else {}), step: (kind, value)}
            return replace(session, proposal=Proposal(values, due))
        case e.ReadBack(unusual) if known:
            return replace(
                session, mode=Mode.CONFIRMING, proposal=replace(known, due=due, unusual=unusual, confirmed=0)
            )
        case e.ConfirmedOnce() if known:
            return replace(session, proposal=replace(known, due=due, confirmed=1))
        case _:
            lifted = session.stop is not None and not isinstance(event, e.ProposalConfirmed)
            return replace(session, proposal=None, mode=Mode.STOPPED if lifted else Mode.WALKING)


def _undone(session: Session, at: datetime) -> Session:
    """As before the last change; what fell due meanwhile does not come again."""
    if session.before is None:
        return session
    timers = tuple(timer for timer in session.before.timers if timer.due > at)
    mode = Mode.WALKING if session.before.stop is None else Mode.STOPPED
    return replace(session.before, timers=timers, mode=mode, proposal=None)
