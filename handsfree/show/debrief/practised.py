"""A practice run as its debrief shows it: steps, errors, times, faults, help, and how it was marked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta, timezone

from handsfree.care import events as e
from handsfree.care.practice import marks as m
from handsfree.care.practice.marking import MISSED
from handsfree.care.practice.scoring import points
from handsfree.care.practice.session import Practice
from handsfree.care.practice.standards import standards
from handsfree.care.practice.terms import Level
from handsfree.say.numbers import spoken
from handsfree.say.wording_keys import called
from handsfree.say.wording_practice import named, what_failed
from handsfree.say.wording_values import value_words
from handsfree.say.wording_written import ACCEPTED, CUES, GUIDED, PROVISIONAL, SET_RIGHT, TAKEN_BACK, cut_off
from handsfree.show.debrief.heard import captions
from handsfree.show.debrief.marks import Fault, Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.points import score
from handsfree.show.debrief.run import Run, Sort
from handsfree.show.debrief.score import Limit, Measure
from handsfree.show.debrief.titles import title
from handsfree.words import worded

_STATES = {
    m.Verdict.DONE: State.DONE,
    m.Verdict.PROMPTED: State.PROMPTED,
    m.Verdict.OUT_OF_ORDER: State.OUT_OF_ORDER,
    m.Verdict.MISSED: State.MISSED,
    m.Verdict.NOT_SEEN: State.NOT_SEEN,
}

LEAD_S = 4.0
"""A step counts from when its words ended: a sentence is seldom longer."""


def practised_run(name: str, session: Practice, records: Sequence[e.Recorded]) -> Run:
    """The run of a session. session: as it stands, folded over all records. name: its id."""
    return _Reader(name, session, records).run()


class _Reader:
    """Reads one session; all times become seconds from its start."""

    def __init__(self, name: str, session: Practice, records: Sequence[e.Recorded]) -> None:
        self._name, self._session, self._records = name, session, records
        self._last = session.ended or records[-1].at
        self._marking = session.marking(self._last)
        self._of_order = {rule.name for rule in standards(session.checklist) if rule.step}

    def run(self) -> Run:
        session = self._session
        return Run(
            session=self._name,
            sort=Sort.PRACTICE,
            title=session.checklist.title,
            began=session.started.astimezone(timezone(timedelta(minutes=session.utc_offset_min))),
            length_s=self._at(self._last),
            trainee=session.terms.trainee,
            marks=tuple(sorted(self._marks(), key=lambda mark: mark.at_s)),
            steps=tuple(self._steps()),
            gaps=tuple(self._gaps()),
            measures=tuple(self._measures()),
            faults=tuple(self._faults()),
            score=score(points(session.checklist, self._marking), session),
            captions=tuple(captions(self._records, session.started)),
            notices=tuple(self._notices()),
            lead_s=LEAD_S,
        )

    def _at(self, moment: datetime) -> float:
        return (moment - self._session.started).total_seconds()

    def _title(self, step: str) -> str:
        return title(self._session.checklist, step) if step else ""

    def _marks(self) -> Iterator[Mark]:
        yield from map(self._failure, (one for one in self._marking.failures if one.rule != MISSED))
        yield from map(self._missed, (one for one in self._marking.failures if one.rule == MISSED))
        for cue in self._marking.cues:
            text = CUES[cue.rung] if cue.asked else f"{worded('Unasked.')} {CUES[cue.rung]}"
            who = Who.TRAINEE if cue.asked else Who.PROGRAM
            yield Mark(self._at(cue.at), Kind.CUE, who, self._title(cue.step), text)
        for record in self._records:
            yield from self._noted(record.event, self._at(record.at))

    def _failure(self, one: m.Failure) -> Mark:
        kind = Kind.OUT_OF_ORDER if one.rule in self._of_order else Kind.UNSAFE
        text = what_failed(one, self._session)
        if not one.stands:
            kind, text = Kind.NOTE, f"{text} {SET_RIGHT if one.corrected else ACCEPTED}"
        critical = one.critical and one.stands
        return Mark(
            self._at(one.at), kind, Who.PROGRAM, self._title(one.step), text, one.why, critical=critical
        )

    def _missed(self, one: m.Failure) -> Mark:
        title_, text = self._title(one.step), "" if one.stands else ACCEPTED
        return Mark(self._at(one.at), Kind.MISSED, Who.PROGRAM, title_, text, one.why, critical=one.stands)

    def _noted(self, event: e.Event, at_s: float) -> Iterator[Mark]:
        checklist = self._session.checklist
        match event:
            case e.StepSaid(step) if checklist.step(step).attempt:
                yield Mark(at_s, Kind.ATTEMPT, Who.TRAINEE, self._title(step))
            case e.FindingReported(finding):
                reported = worded("Reported: {finding}.", finding=named(finding))
                yield Mark(at_s, Kind.NOTE, Who.TRAINEE, text=reported)
            case e.Overruled(what, name):
                yield Mark(at_s, Kind.NOTE, Who.INSTRUCTOR, text=f"{named(name)}: {called(what)}.")
            case e.Undone():
                yield Mark(at_s, Kind.NOTE, Who.TRAINEE, text=TAKEN_BACK)
            case e.EmergencyRaised(emergency):
                yield Mark(at_s, Kind.EMERGENCY, Who.TRAINEE, text=named(emergency))
            case _:
                pass

    def _steps(self) -> Iterator[Step]:
        phases = {phase.name: phase.title for phase in self._session.checklist.phases}
        for one in self._marking.steps:
            step, said = self._session.checklist.step(one.step), one.saying
            yield Step(
                name=step.name,
                title=self._title(step.name),
                state=_STATES[one.verdict],
                at_s=self._at(said.at) if said else None,
                phase=phases.get(step.phase, ""),
                value=value_words(said.kind, said.value, spoken) if said and said.value else "",
                reason=worded("Said: {words}", words=said.words) if said else "",
                critical=step.critical,
                said=said is not None,
                seen=one.seen,
            )

    def _gaps(self) -> Iterator[Point]:
        for one in self._marking.failures:
            if one.stands and not one.critical:
                text = f"{what_failed(one, self._session)} {one.why}".strip()
                yield Point(text, None if one.rule == MISSED else self._at(one.at))
        for missed in self._marking.of(m.Verdict.MISSED):
            if not self._session.checklist.step(missed.step).critical:
                yield Point(f"{self._title(missed.step)} {worded('Missed.')}")

    def _measures(self) -> Iterator[Measure]:
        target_s = self._session.checklist.assessment.target_s
        yield Measure(worded("whole run"), self._at(self._last), target_s or None, at_s=0.0)
        for one in self._marking.stretches:
            name, began, source = named(one.rule.name), self._at(one.began), one.rule.source
            if one.least_s:
                yield Measure(name, one.took_s, one.least_s, Limit.AT_LEAST, began, source)
            elif one.rule.at_most_s:
                yield Measure(name, one.took_s, one.rule.at_most_s, Limit.AT_MOST, began, source)

    def _faults(self) -> Iterator[Fault]:
        for one in self._marking.faults:
            fault = self._session.checklist.fault_to_meet(one.fault)
            if fault is not None:
                yield Fault(self._at(one.at), fault.tell, fault.right, self._at(one.met) if one.met else None)

    def _notices(self) -> Iterator[str]:
        yield PROVISIONAL
        if self._session.terms.level is Level.GUIDED:
            yield GUIDED
        if not self._session.over:
            yield cut_off("run")
