"""A guided session as runs, one for each line: what was closed, what was not, and its moments."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from itertools import takewhile

from handsfree.care import checklist as c
from handsfree.care import events as e
from handsfree.care import session as s
from handsfree.care.belonging import met
from handsfree.say.numbers import spoken
from handsfree.say.wording_keys import called
from handsfree.say.wording_values import value_words
from handsfree.say.wording_written import GONE_ON, NOT_UNDERSTOOD, cut_off
from handsfree.show.debrief.heard import captions
from handsfree.show.debrief.marks import Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.titles import title
from handsfree.words import worded

_STATES = {
    s.State.OPEN: State.MISSED,
    s.State.CLOSED: State.DONE,
    s.State.SKIPPED: State.SKIPPED,
    s.State.LEFT: State.LEFT_OPEN,
}


Met = tuple[e.Recorded, s.Session]
"""An event, and the session that it met, of the line that it is about."""


def guided_runs(name: str, session: s.Session, records: Sequence[e.Recorded]) -> tuple[Run, ...]:
    """The runs of a session, one for each line. name: its id. session: folded over all its records."""
    everything = tuple(met(session, records))
    lines = sorted((session, *session.others), key=lambda line: line.started)
    return tuple(_run(name, line, everything) for line in lines)


def _run(name: str, line: s.Session, everything: Sequence[Met]) -> Run:
    """The run of one line, of everything that happened to all."""
    began = everything[0][0].at
    mine = [one for one in everything if one[1].name == line.name]
    steps = tuple(_steps(line.walks[-1], began))
    return Run(
        session=name,
        sort=Sort.GUIDE,
        title=line.own_checklist.title,
        line=line.name,
        began=began.astimezone(timezone(timedelta(minutes=line.utc_offset_min))),
        length_s=(everything[-1][0].at - began).total_seconds(),
        marks=tuple(_marks(line.name, everything)),
        steps=steps,
        besides=tuple(_besides(line, mine, began)),
        gaps=tuple(Point(f"{step.title} {called(step.state.value)}.") for step in steps if step.at_s is None),
        captions=tuple(captions([record for record, _ in mine], began)),
        sounds=tuple(_clips(mine, began)),
        notices=() if line.over else (cut_off("session"),),
    )


def _besides(line: s.Session, mine: Sequence[Met], began: datetime) -> Iterator[Step]:
    """The steps of each checklist that was begun over the line's own, under its title and when it ended."""
    for record, walk in mine:
        if isinstance(record.event, e.ChecklistEnded):
            yield from _under(f"{walk.checklist.title}, {walk.local(record.at):%H:%M}", walk, began)
    for walk in line.walks[:-1]:
        yield from _under(worded("{title}, not ended", title=walk.checklist.title), walk, began)


def _under(heading: str, walk: s.Session, began: datetime) -> Iterator[Step]:
    for step in _steps(walk, began):
        yield replace(step, name=f"{heading}: {step.name}", phase=heading)


def _steps(walk: s.Session, began: datetime) -> Iterator[Step]:
    titles = {phase.name: phase.title for phase in walk.checklist.phases}
    for step in walk.checklist.steps:
        if not walk.applies(step):
            continue
        mark = walk.mark(step.name)
        closed = mark.at is not None and mark.state is s.State.CLOSED
        yield Step(
            name=step.name,
            title=title(walk.checklist, step.name),
            state=_STATES[mark.state],
            at_s=(mark.at - began).total_seconds() if mark.at and closed else None,
            phase=titles.get(step.phase, ""),
            value=value_words(mark.kind, mark.value, spoken),
            reason=mark.reason,
            critical=step.critical,
            said=closed,
        )


def _marks(line: str, everything: Sequence[Met]) -> Iterator[Mark]:
    """The moments of a line that are more than a step closed, each with the words that led to it and its
    answer."""
    heard, records = "", [record for record, _ in everything]
    for number, (record, session) in enumerate(everything):
        if isinstance(record.event, e.SpeechUnderstood):
            heard = record.event.text
        if session.name == line:
            at_s = (record.at - records[0].at).total_seconds()
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
            yield mark(Kind.NOTE, worded("Gone on anyway: {reason}", reason=reason), step)
        case e.StepSkipped(step, reason):
            yield mark(Kind.SKIPPED, reason, step, critical=checklist.step(step).critical)
        case e.StepLeftOpen(step):
            yield mark(Kind.SKIPPED, NOT_UNDERSTOOD, step)
        case e.FindingReported():
            yield mark(Kind.NOTE, both)
        case e.EmergencyRaised():
            yield mark(Kind.EMERGENCY, both, critical=True)
        case e.CueFired(step, say, urgent=True):
            yield mark(Kind.TIMER, say, step)
        case e.StepClosed(step) if checklist.step(step).attempt:
            yield mark(Kind.ATTEMPT, "", step)
        case e.SessionResumed():
            yield mark(Kind.NOTE, GONE_ON)
        case _:
            pass


def _clips(mine: Iterable[Met], began: datetime) -> Iterator[Sound]:
    """Words that no grammar holds were kept as sound."""
    for record, _ in mine:
        file = getattr(record.event, "sound", "")
        if file:
            yield Sound(file, (), (record.at - began).total_seconds())
