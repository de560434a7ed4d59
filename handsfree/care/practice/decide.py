"""decide(session, command, at) -> events, for practice. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from types import MappingProxyType
from typing import assert_never

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.checklist import Step
from handsfree.care.commands import Answer, Close, Command, Mumble, Notice, Say, Tick, Waver
from handsfree.care.manner import MANNERS
from handsfree.care.practice.rules import OPEN, Mode
from handsfree.care.practice.session import Practice, evolve
from handsfree.care.practice.target import meant
from handsfree.care.practice.terms import Level

HIGHEST = 3
"""The last rung of the ladder of cues: the step with its reason."""

_CHANGING = ("saw", "saw_not", "accept")
"""Commands that can be taken back, besides what is said of steps, findings and faults."""


class _Course:
    """Collects events; each later choice sees the session after the earlier ones."""

    def __init__(self, session: Practice, at: datetime) -> None:
        self.session, self.at = session, at
        self.events: list[e.Event] = []

    def add(self, event: e.Event) -> None:
        self.session = evolve(self.session, event, self.at)
        self.events.append(event)


def begin(session: Practice, started: e.SessionStarted, at: datetime) -> tuple[e.Event, ...]:
    """The first events of a run."""
    course = _Course(session, at)
    course.add(started)
    _guide(course)
    return tuple(course.events)


def resume(session: Practice, resumed: e.SessionResumed, at: datetime) -> tuple[e.Event, ...]:
    """The first events after a run was cut off."""
    course = _Course(session, at)
    course.add(resumed)
    _watch(course)
    _guide(course)
    return tuple(course.events)


def decide(session: Practice, command: Command, at: datetime) -> tuple[e.Event, ...]:
    """What happens because of a command; empty where nothing does."""
    course = _Course(session, at)
    if session.mode is Mode.OVER:
        return ()
    match command:
        case Say():
            _said(course, command)
        case Mumble(text, sound):
            course.add(e.SpeechNotUnderstood(text, sound))
        case Waver(candidates):
            course.add(e.SpeechWavered(tuple(said.text for said in candidates)))
        case Tick():
            _prompt(course)
        case Notice(trouble, over):
            course.add(e.SoundMended(trouble) if over else e.SoundTroubled(trouble))
        case Close():
            _watch(course)
            course.add(e.SessionEnded("input ended"))
        case _:
            assert_never(command)
    _watch(course)
    return tuple(course.events)


def _said(course: _Course, said: Say) -> None:
    checklist = course.session.checklist
    answers = said.answers or ((Answer(said.rule),) if checklist.finding(said.rule) is not None else ())
    fault = checklist.fault_to_meet(said.rule)
    changes = bool(answers) or fault is not None or said.rule in _CHANGING
    course.add(e.SpeechUnderstood(said.rule, said.text, said.confidence, changes))
    if answers:
        for one in answers:
            _told(course, one)
        _guide(course)
    elif fault is not None:
        course.add(e.FaultSet(fault.name))
    elif checklist.emergency(said.rule) is not None:
        course.add(e.EmergencyRaised(said.rule))
    elif course.session.mode in OPEN.get(said.rule, ()):
        _COMMANDS[said.rule](course, said)
    else:
        course.add(e.CommandRefused(refusals.NO_SENSE))


def _told(course: _Course, one: Answer) -> None:
    """A step or finding; a fault that was drawn comes right after its step."""
    what = meant(course.session.sheet(), one)
    if isinstance(what, str):
        course.add(e.FindingReported(what))
        return
    kind = next((rule for rule in (one.rule, *one.also) if rule in what.value), "")
    value = one.value if kind else ""
    course.add(e.StepSaid(what.name, one.said_at or course.at, kind, value, one.words))
    set_already = course.session.sheet().faults
    for name in course.session.terms.faults:
        fault = course.session.checklist.fault_to_meet(name)
        if fault is not None and fault.when == what.name and name not in set_already:
            course.add(e.FaultSet(name, drawn=True))


def _watch(course: _Course) -> None:
    """Note each critical rule that failed since the last look."""
    for one in course.session.marking(course.at).critical:
        if (one.rule, one.step, one.at) not in course.session.broken:
            course.add(e.RuleBroken(one.rule, one.step, one.at))


def _guide(course: _Course) -> None:
    """On the guided level each step is said beforehand."""
    if course.session.terms.level is Level.GUIDED and course.session.mode is Mode.TALKING:
        step = _next(course)
        course.add(e.StepOpened(step.name if step else ""))


def _prompt(course: _Course) -> None:
    due = course.session.prompt_due()
    step = _next(course)
    if due is not None and due <= course.at and step is not None:
        course.add(e.CueGiven(step.name, _rung(course, step), asked=False))


def _next(course: _Course) -> Step | None:
    return next(iter(course.session.sheet().open()), None)


def _rung(course: _Course, step: Step) -> int:
    """One higher than the last cue for the step since it was last said."""
    cues = [one.rung for one in course.session.sheet().cues if one.step == step.name]
    return min(cues[-1] + 1, HIGHEST) if cues else 1


def _cue(course: _Course, _: Say) -> None:
    step = _next(course)
    course.add(e.CueGiven(step.name, _rung(course, step)) if step else e.Told("complete"))


def _missed(course: _Course, _: Say) -> None:
    course.add(e.MissedTold(tuple(step.name for step in course.session.sheet().behind())))


def _passed(course: _Course, _: Say) -> None:
    course.add(e.TimeTold(int((course.at - course.session.started).total_seconds())))


def _undo(course: _Course, _: Say) -> None:
    events = [one.event for one in course.session.records]
    changed = sum(isinstance(one, e.SpeechUnderstood) and one.changes for one in events)
    can = changed > events.count(e.Undone())
    course.add(e.Undone() if can else e.Told("nothing_to_undo"))


def _saw(course: _Course, said: Say) -> None:
    """A step that is named, else the one that was said last."""
    sayings = course.session.sheet().sayings
    last = sayings[-1].step if sayings else ""
    name = said.reason or last
    if name:
        course.add(e.Overruled("seen" if said.rule == "saw" else "not seen", name))
    else:
        course.add(e.CommandRefused(refusals.NOTHING_SAID))


def _accept(course: _Course, _: Say) -> None:
    """The failure that came last counts no more."""
    failures = [one for one in course.session.marking(course.at).failures if one.stands]
    if failures:
        course.add(e.Overruled("accepted", failures[-1].rule))
    else:
        course.add(e.CommandRefused(refusals.NOTHING_FAILED))


def _just(event: Callable[[], e.Event]) -> Callable[[_Course, Say], None]:
    return lambda course, _: course.add(event())


_COMMANDS: Mapping[str, Callable[[_Course, Say], None]] = MappingProxyType(
    {
        "cue": _cue,
        "missed": _missed,
        "passed": _passed,
        **MANNERS,
        "undo": _undo,
        "saw": _saw,
        "saw_not": _saw,
        "accept": _accept,
        "where": _just(lambda: e.Told("where")),
        "repeat": _just(lambda: e.Told("repeat")),
        "stop": _just(e.Held),
        "end": _just(e.EndAsked),
        "end_it": _just(lambda: e.SessionEnded("by voice")),
        "wrong": _just(e.EndDropped),
    }
)
