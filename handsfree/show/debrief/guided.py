"""A guided session as a run: what was closed, what was not, and the moments at which it was stopped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta, timezone
from itertools import takewhile

from handsfree.care import checklist as c
from handsfree.care import events as e
from handsfree.care import session as s
from handsfree.care.rules import Mode
from handsfree.say.numbers import spoken
from handsfree.say.wording_values import value_words
from handsfree.show.debrief.heard import captions
from handsfree.show.debrief.marks import Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.titles import title

_STATES = {
    s.State.OPEN: State.MISSED,
    s.State.CLOSED: State.DONE,
    s.State.SKIPPED: State.SKIPPED,
    s.State.LEFT: State.LEFT_OPEN,
}


def guided_run(name: str, session: s.Session, records: Sequence[e.Recorded]) -> Run:
    """The run of a session. session: as it ended, folded over all records. name: its id."""
    steps = tuple(_steps(session))
    return Run(
        session=name,
        sort=Sort.GUIDE,
        title=session.checklist.title,
        began=session.started.astimezone(timezone(timedelta(minutes=session.utc_offset_min))),
        length_s=(records[-1].at - session.started).total_seconds(),
        marks=tuple(_marks(session, records)),
        steps=steps,
        gaps=tuple(Point(f"{step.title} {step.state.value}.") for step in steps if step.at_s is None),
        captions=tuple(captions(records, session.started)),
        sounds=tuple(_clips(session, records)),
        notices=()
        if session.mode is Mode.OVER
        else ("This session was cut off: what came after is not in it.",),
    )


def _steps(session: s.Session) -> Iterator[Step]:
    titles = {phase.name: phase.title for phase in session.checklist.phases}
    for step in session.checklist.steps:
        if not session.applies(step):
            continue
        mark = session.mark(step.name)
        closed = mark.at is not None and mark.state is s.State.CLOSED
        yield Step(
            name=step.name,
            title=title(session.checklist, step.name),
            state=_STATES[mark.state],
            at_s=(mark.at - session.started).total_seconds() if mark.at and closed else None,
            phase=titles.get(step.phase, ""),
            value=value_words(mark.kind, mark.value, spoken),
            reason=mark.reason,
            critical=step.critical,
            said=closed,
        )


def _marks(session: s.Session, records: Sequence[e.Recorded]) -> Iterator[Mark]:
    """The moments that are more than a step closed, each with the words that led to it and its answer."""
    heard = ""
    for number, record in enumerate(records):
        if isinstance(record.event, e.SpeechUnderstood):
            heard = record.event.text
        at_s = (record.at - session.started).total_seconds()
        answer = _announced(records, number)
        yield from _marks_of(record.event, session.checklist, at_s, f"{heard}. {answer}")


def _announced(records: Sequence[e.Recorded], number: int) -> str:
    """What was said because of the record of this number, counted from 0."""
    following = (records[n] for n in range(number, len(records)))
    same = takewhile(lambda one: one.at == records[number].at, following)
    return next((one.event.text for one in same if isinstance(one.event, e.Announced)), "")


def _marks_of(event: e.Event, checklist: c.Checklist, at_s: float, both: str) -> Iterator[Mark]:
    """both: what the user said last, and what the program answers."""

    def mark(kind: Kind, text: str, step: str = "", *, critical: bool = False) -> Mark:
        on = title(checklist, step) if step else ""
        return Mark(at_s, kind, Who.PROGRAM, on, text, critical=critical)

    match event:
        case e.StopRaised(step, may_override=may_override):
            yield mark(Kind.STOP, both, step, critical=not may_override)
        case e.StopOverridden(step, reason):
            yield mark(Kind.NOTE, f"Gone on anyway: {reason}", step)
        case e.StepSkipped(step, reason):
            yield mark(Kind.SKIPPED, reason, step, critical=checklist.step(step).critical)
        case e.StepLeftOpen(step):
            yield mark(Kind.SKIPPED, "Asked, and not understood.", step)
        case e.FindingReported():
            yield mark(Kind.NOTE, both)
        case e.EmergencyRaised():
            yield mark(Kind.EMERGENCY, both, critical=True)
        case e.CueFired(step, say, urgent=True):
            yield mark(Kind.TIMER, say, step)
        case e.StepClosed(step) if checklist.step(step).attempt:
            yield mark(Kind.ATTEMPT, "", step)
        case e.SessionResumed():
            yield mark(Kind.NOTE, "Gone on with after it was cut off.")
        case _:
            pass


def _clips(session: s.Session, records: Sequence[e.Recorded]) -> Iterator[Sound]:
    """Words that no grammar holds were kept as sound."""
    for record in records:
        file = getattr(record.event, "sound", "")
        if file:
            yield Sound(file, (), (record.at - session.started).total_seconds())
