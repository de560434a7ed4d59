"""The session: everything that is known at one moment. How events change it: evolution.py."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from enum import Enum
from fractions import Fraction

from handsfree.care import events as e
from handsfree.care.checklist import ANY_BRANCH, Checklist, Step
from handsfree.care.choices import Choice
from handsfree.care.flow_by_ear import Window
from handsfree.care.infusion.limits import Limit
from handsfree.care.infusion.patient import Patient
from handsfree.care.questions.question import Asked
from handsfree.care.reminders.bag import Bag
from handsfree.care.reminders.policy import Interval
from handsfree.care.reminders.reminder import Reminder
from handsfree.care.rules import Mode
from handsfree.care.timers import Timer
from handsfree.signals import Keeps

WAITS_IN_SILENCE = timedelta(minutes=5)
"""While silence is kept, a reminder that is not urgent waits so long, and is not lost; so does any that the
checklist at hand answers."""


class State(Enum):
    """Where a step stands."""

    OPEN = "open"
    CLOSED = "closed"
    SKIPPED = "skipped"
    LEFT = "left open"


@dataclass(frozen=True, slots=True)
class Mark:
    """State of a step, since when, and the value that closed it. reason: for which it was left out, or a stop
    of it was passed over."""

    state: State = State.OPEN
    at: datetime | None = None
    kind: str = ""
    value: str = ""
    reason: str = ""
    passed_over: bool = False


@dataclass(frozen=True, slots=True)
class Proposal:
    """Values read back, by step: kind and value. due: when they lapse. unusual: confirm twice.

    confirmed: once already, of the two times. asked: the question was said to its end; before, nothing that
    is said can have been meant for it. besides: what is unusual about the answer that the values come from.
    """

    values: Mapping[str, tuple[str, str]]
    due: datetime
    unusual: tuple[str, ...] = ()
    confirmed: bool = False
    asked: bool = False
    besides: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Session:
    """Everything the next decision depends on.

    name: of the line or patient, where the user gave one. others: the other lines, each a session of its own.
    aside_of: while something is done for another line, the name of the one at hand.
    under: while another checklist is walked through, the session as it was, to which that leads back.
    """

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
    choice: Choice | None = None
    asked: Asked | None = None
    stop: e.StopRaised | None = None
    rate: e.RateComputed | None = None
    timers: tuple[Timer, ...] = ()
    attempts: int = 0
    failed: int = 0
    misses: int = 0
    sharp_open: bool = False
    reason_for: str = ""
    keeps: Keeps = Keeps.WORDS
    signs_after_s: int = 0
    sign_due: datetime | None = None
    intervals: tuple[Interval, ...] = ()
    limits: tuple[Limit, ...] = ()
    cases: tuple[str, ...] = ()
    since: Mapping[str, datetime] = field(default_factory=dict)
    bag: Bag | None = None
    reminders: tuple[Reminder, ...] = ()
    beat: Fraction | None = None
    window: Window | None = None
    found: tuple[e.Found, ...] = ()
    befores: tuple[Session, ...] = ()
    under: Session | None = None
    name: str = ""
    others: tuple[Session, ...] = ()
    aside_of: str = ""

    @property
    def before(self) -> Session | None:
        """The session before the last change that can be undone."""
        return self.befores[-1] if self.befores else None

    @property
    def over(self) -> bool:
        """Whether it has ended."""
        return self.mode is Mode.OVER

    @property
    def held(self) -> bool:
        """Whether silence is kept."""
        return self.mode is Mode.HELD

    @property
    def wants_free_words(self) -> bool:
        """Whether a reason is waited for: no grammar holds them all."""
        return self.mode is Mode.REASONING

    @property
    def patient(self) -> Patient | None:
        """The kind of patient, as far as it was said."""
        return Patient.CHILD if "child" in self.cases else None

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

    def gone_on_at(self) -> tuple[str, ...]:
        """Names of the steps that were closed though they were stopped."""
        return tuple(step.name for step in self.checklist.steps if self.mark(step.name).passed_over)

    def local(self, at: datetime) -> datetime:
        """A time as the clock on the wall shows it."""
        return at + timedelta(minutes=self.utc_offset_min)

    def today(self, at: datetime) -> date:
        """The local date."""
        return self.local(at).date()

    def next_sign(self) -> datetime | None:
        """When it is to be said that the session listens: only while an answer is waited for, and no sharp is
        open."""
        if self.aside_of:
            return None
        return self.sign_due if self.mode in (Mode.WALKING, Mode.STOPPED) and not self.sharp_open else None

    def reminder(self, key: tuple[str, str, datetime]) -> Reminder:
        """The reminder of that key. Raises KeyError."""
        return {one.key: one for one in self.reminders}[key]

    def line(self, name: str) -> Session:
        """The line of that name. Raises KeyError."""
        return {one.name: one for one in (self, *self.others)}[name]

    @property
    def at_hand(self) -> Session:
        """The line at hand: this one, unless something is done aside."""
        return self.line(self.aside_of) if self.aside_of else self

    def seen_from_here(self, other: Session) -> Session:
        """Another line as it is seen while this one is at hand: it keeps to the silence of this one."""
        return replace(other, others=(replace(self, others=()),), aside_of=self.name)

    @property
    def walks(self) -> tuple[Session, ...]:
        """This session, and those underneath, down to that of its own checklist."""
        return (self, *(self.under.walks if self.under else ()))

    @property
    def own_checklist(self) -> Checklist:
        """The checklist that the session began with, whichever is at hand."""
        return self.walks[-1].checklist

    def running(self) -> tuple[Timer, ...]:
        """The timers of all walks."""
        return tuple(timer for walk in self.walks for timer in walk.timers)

    def latched(self) -> tuple[Reminder, ...]:
        """Reminders that were said and wait for an answer, the most urgent first."""
        return tuple(sorted((one for one in self.reminders if one.latched), key=lambda one: one.rank))

    @property
    def answering(self) -> tuple[str, ...]:
        """Kinds of reminder that a checklist at hand is about to answer: they need not be said over it."""
        begun = [walk.checklist.begin for walk in self.walks if walk.under and walk.checklist.begin]
        return tuple(kind for begin in begun for kind in begin.answers)

    def may_say(self, reminder: Reminder) -> datetime | None:
        """From when on a reminder may be said; None while it has to wait for an open sharp or a read-back."""
        if reminder.answered or self.at_hand.sharp_open:
            return None
        if reminder.kind in self.answering:
            return reminder.next + WAITS_IN_SILENCE
        if reminder.urgent:
            return reminder.next
        mode = self.at_hand.mode
        if mode in (Mode.CONFIRMING, Mode.CHOOSING, Mode.ASKING):
            return None
        return reminder.next + WAITS_IN_SILENCE if mode is Mode.HELD else reminder.next

    def deadline(self) -> datetime | None:
        """When the next tick is due, of whatever line; None where nothing is."""
        dues = (self.own_deadline(), *(self.seen_from_here(one).own_deadline() for one in self.others))
        return min((due for due in dues if due is not None), default=None)

    def own_deadline(self) -> datetime | None:
        """When something is due of this line; None where nothing is."""
        questions = (self.proposal, self.choice, self.asked, self.window)
        open_questions = (one for one in questions if one is not None)
        dues = [one.due for one in (*self.running(), *open_questions) if one.due is not None]
        dues += [due for one in self.reminders if (due := self.may_say(one)) is not None]
        return min((due for due in (*dues, self.next_sign()) if due is not None), default=None)
