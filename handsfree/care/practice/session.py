"""A practice run: everything that is known at one moment, and how events change it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.practice.marking import mark, written
from handsfree.care.practice.marks import Marking
from handsfree.care.practice.rules import Mode
from handsfree.care.practice.sheet import Sheet
from handsfree.care.practice.terms import Level, Terms
from handsfree.signals import Keeps

_KEPT = (
    *(e.SpeechUnderstood, e.Undone, e.StepSaid, e.FindingReported),
    *(e.CueGiven, e.MissedTold, e.FaultSet, e.Overruled),
)
"""Events by which a run is marked."""


@dataclass(frozen=True, slots=True)
class Practice:
    """A run. records: the events by which it is marked.

    broken: critical failures that were noted: rule, step, when. loose: steps are heard in the midst of other
    talk. stirred: when the trainee last got on, or was cued.
    """

    checklist: Checklist
    started: datetime
    utc_offset_min: int = 0
    terms: Terms = field(default_factory=Terms)
    loose: bool = True
    keeps: Keeps = Keeps.NOTHING
    mode: Mode = Mode.TALKING
    records: tuple[e.Recorded, ...] = ()
    broken: frozenset[tuple[str, str, datetime]] = frozenset()
    stirred: datetime | None = None
    ended: datetime | None = None

    @property
    def over(self) -> bool:
        """Whether it has ended."""
        return self.mode is Mode.OVER

    @property
    def wants_free_words(self) -> bool:
        """Nothing that no grammar holds is waited for."""
        return False

    def sheet(self) -> Sheet:
        """What is done so far."""
        return written(self.checklist, self.records, self.utc_offset_min)

    def marking(self, at: datetime) -> Marking:
        """The marks at a time: after the end they are final."""
        moment, ended = self.ended or at, self.ended is not None
        return mark(self.checklist, self.records, moment, self.utc_offset_min, ended=ended)

    def prompt_due(self) -> datetime | None:
        """When a cue comes by itself; None on the other levels."""
        if self.terms.level is not Level.PROMPTED or self.mode is not Mode.TALKING:
            return None
        return (self.stirred or self.started) + timedelta(seconds=self.checklist.assessment.prompt_after_s)

    def deadline(self) -> datetime | None:
        """When the next tick is due: a cue, or a critical rule that will fail by time alone."""
        dues = [due for due in (self.prompt_due(), *self._limits()) if due is not None]
        return min(dues, default=None)

    def _limits(self) -> Iterator[datetime]:
        if self.mode is Mode.OVER:
            return
        for one in self.marking(self.started).stretches:
            limit = one.began + timedelta(seconds=one.rule.at_most_s)
            told = (one.rule.name, "", limit) in self.broken
            if one.rule.critical and one.rule.at_most_s and one.ended is None and not told:
                yield limit + timedelta(microseconds=1)


def evolve(session: Practice, event: e.Event, at: datetime) -> Practice:
    """The session after an event; those that mean nothing here change nothing."""
    if isinstance(event, _KEPT):
        session = replace(session, records=(*session.records, e.Recorded(at, event)))
    match event:
        case e.StepSaid() | e.CueGiven() | e.FindingReported():
            return replace(session, stirred=at)
        case e.RuleBroken(rule, step, failed):
            return replace(session, broken=session.broken | {(rule, step, failed)})
        case e.EndAsked():
            return replace(session, mode=Mode.ENDING)
        case e.EndDropped():
            return replace(session, mode=Mode.TALKING)
        case e.SessionResumed(ear):
            loose = ear != "sphinx"
            return replace(session, mode=Mode.TALKING, ended=None, stirred=at, loose=loose)
        case e.SessionEnded():
            return replace(session, mode=Mode.OVER, ended=at)
        case _:
            return session
