"""A drill as runs, one for each trainee: the instructor's marks, their steps, and what follows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta, timezone
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.drill import marks as m
from handsfree.care.drill import session as s
from handsfree.care.drill.rules import Mode
from handsfree.say.wording_keys import called
from handsfree.say.wording_written import DRILL_SCORE, KEPT_AS_SOUND, cut_off, no_mark
from handsfree.show.debrief.heard import captions
from handsfree.show.debrief.marks import Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.score import Measure, Rule, Score
from handsfree.show.debrief.titles import title
from handsfree.words import worded

_STATES = MappingProxyType(
    {
        m.Kind.DONE: State.DONE,
        m.Kind.PROMPTED: State.PROMPTED,
        m.Kind.OUT_OF_ORDER: State.OUT_OF_ORDER,
        m.Kind.MISSED: State.MISSED,
        m.Kind.NOT_SEEN: State.NOT_SEEN,
        m.Kind.UNSAFE: State.DONE,
        m.Kind.CONTAMINATED: State.DONE,
        m.Kind.ATTEMPT: State.DONE,
    }
)
"""What a verdict says of its step: what was unsafe was done, and stands alone as critical."""

_KINDS = MappingProxyType(
    {
        m.Kind.FREE: Kind.NOTE,
        m.Kind.CLOCK_STARTED: Kind.CLOCK,
        m.Kind.CLOCK_STOPPED: Kind.CLOCK,
    }
)

_POINTS = MappingProxyType({State.DONE: 1.0, State.PROMPTED: 0.5, State.OUT_OF_ORDER: 0.5, State.MISSED: 0.0})
"""Half for what was right but for help or order (common practice, no source)."""


def drilled_runs(name: str, session: s.Session, records: Sequence[e.Recorded]) -> tuple[Run, ...]:
    """The runs of a drill; one that is empty where none began. session: as it ended. name: its id."""
    last = records[-1].at
    runs = session.runs or (s.Run(session.trainee, session.started, last),)
    ends = [run.began for run in runs[1:]] + [last]
    return tuple(
        _run(name, session, run, _within(records, run.began, end))
        for run, end in zip(runs, ends, strict=True)
    )


def _within(records: Sequence[e.Recorded], begin: datetime, end: datetime) -> list[e.Recorded]:
    return [one for one in records if begin <= one.at <= end]


def _run(name: str, session: s.Session, run: s.Run, records: Sequence[e.Recorded]) -> Run:
    last = max((run.began, *(one.at for one in records)))
    length_s = _after_s(run, run.ended or last)
    steps = tuple(_steps(session.checklist, run))
    done = [step for step in steps if step.state is State.DONE and step.critical]
    short = [step for step in steps if step.state is not State.DONE]
    return Run(
        session=name,
        sort=Sort.DRILL,
        title=" ".join(filter(None, (session.checklist.title, session.drill))),
        began=run.began.astimezone(timezone(timedelta(minutes=session.utc_offset_min))),
        length_s=length_s,
        trainee=run.trainee,
        marks=tuple(_mark(session.checklist, run, mark) for mark in run.marks),
        steps=steps,
        strengths=tuple(Point(f"{step.title} {_state(step)}", step.at_s) for step in done),
        gaps=tuple(Point(f"{step.title} {_state(step)}", step.at_s) for step in short),
        measures=tuple(_measures(run, length_s)),
        score=_score(steps),
        captions=tuple(captions(records, run.began)),
        sounds=tuple(_clips(run, records)),
        notices=tuple(_notices(session, run, len(steps))),
    )


def _state(step: Step) -> str:
    return f"{called(step.state.value).capitalize()}."


def _after_s(run: s.Run, at: datetime) -> float:
    return (at - run.began).total_seconds()


def _mark(checklist: Checklist, run: s.Run, mark: s.Mark) -> Mark:
    step = checklist.step(mark.step) if mark.step else None
    alarming = mark.kind in (m.Kind.UNSAFE, m.Kind.CONTAMINATED, m.Kind.EMERGENCY)
    missed = mark.kind is m.Kind.MISSED and step is not None and step.critical
    return Mark(
        at_s=_after_s(run, mark.at),
        kind=_KINDS.get(mark.kind) or Kind(mark.kind.value),
        who=Who.INSTRUCTOR,
        step=title(checklist, mark.step) if step else "",
        text=_text(mark),
        critical=alarming or missed,
    )


def _text(mark: s.Mark) -> str:
    """What is to be read of a mark beside its kind: its words, as far as there are any."""
    if mark.kind in m.WITH_WORDS:
        unwritten = KEPT_AS_SOUND if mark.sound else ""
        return mark.text or unwritten
    return "" if mark.kind in m.VERDICTS else mark.words


def _steps(checklist: Checklist, run: s.Run) -> Iterator[Step]:
    """The steps with a mark, in order of the checklist; of several verdicts the last one holds."""
    titles = {phase.name: phase.title for phase in checklist.phases}
    verdicts = {mark.step: mark for mark in run.marks if mark.step}
    for step in checklist.steps:
        mark = verdicts.get(step.name)
        if mark is not None:
            state = _STATES[mark.kind]
            yield Step(
                name=step.name,
                title=title(checklist, step.name),
                state=state,
                at_s=None if state in (State.MISSED, State.NOT_SEEN) else _after_s(run, mark.at),
                phase=titles.get(step.phase, ""),
                critical=step.critical,
                seen=None if state is State.NOT_SEEN else state is not State.MISSED,
            )


def _measures(run: s.Run, length_s: float) -> Iterator[Measure]:
    yield Measure(worded("Whole run"), length_s, at_s=0.0)
    lap, clock, since = 0, 0, 0.0
    for mark in sorted(run.marks, key=lambda one: one.at):
        at_s = _after_s(run, mark.at)
        if mark.kind is m.Kind.LAP:
            lap += 1
            yield Measure(worded("Lap {number}", number=lap), at_s - since, at_s=since)
            since = at_s
        elif mark.kind is m.Kind.CLOCK_STARTED:
            clock += 1
            yield Measure(worded("Clock {number}", number=clock), _clock_s(run, mark), at_s=at_s)


def _clock_s(run: s.Run, started: s.Mark) -> float | None:
    """How long a clock ran; None where it was not stopped."""
    stops = [one.at for one in run.marks if one.kind is m.Kind.CLOCK_STOPPED and one.at >= started.at]
    return (min(stops) - started.at).total_seconds() if stops else None


def _score(steps: tuple[Step, ...]) -> Score | None:
    rules = tuple(
        Rule(
            step.title,
            _POINTS[step.state],
            1.0,
            "" if step.state is State.DONE else _state(step),
            step.at_s,
        )
        for step in steps
        if step.state in _POINTS
    )
    return Score(rules, DRILL_SCORE) if rules else None


def _clips(run: s.Run, records: Sequence[e.Recorded]) -> Iterator[Sound]:
    """The words of marks are kept as sound besides."""
    for record in records:
        if isinstance(record.event, e.WordsKept) and record.event.sound:
            yield Sound(record.event.sound, (), _after_s(run, record.at))


def _notices(session: s.Session, run: s.Run, marked: int) -> Iterator[str]:
    if run.ended is None and session.mode is not Mode.OVER:
        yield cut_off("drill")
    left = len(session.checklist.steps) - marked
    if left:
        yield no_mark(left, len(session.checklist.steps))
