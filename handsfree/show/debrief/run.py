"""A run as its debrief shows it: plain values, whatever kind of session it was.

A reader for each kind of session makes a Run from its events; whoever shows it needs no more. All times are
seconds from the start of the run.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from handsfree.show.debrief.marks import Fault, Kind, Mark, Point, Step
from handsfree.show.debrief.score import Measure, Score
from handsfree.webvtt import Cue


class Sort(Enum):
    """What was run."""

    GUIDE = "guide"
    PRACTICE = "practice"
    DRILL = "drill"


@dataclass(frozen=True, slots=True)
class Sound:
    """Where sound of the run is kept. file: path in the sessions folder.

    anchors: pairs of seconds of sound from the start of the file, and the moment of the run at which they had
    been heard, in order; time goes evenly between them, and on as it went. ends_s: of a clip without
    anchors, the moment at which its last sample was heard.
    """

    file: str
    anchors: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    ends_s: float | None = None


@dataclass(frozen=True, slots=True)
class Lost:
    """Silence in place of sound: it was not kept. why: in a few words."""

    at_s: float
    lasted_s: float
    why: str


@dataclass(frozen=True, slots=True)
class Run:
    """One run by one trainee, or of one line.

    session: its id. trainee: empty where nobody was named. line: one of several that the session was about.
    began: aware, in local time. signed: whether an instructor accepted its marks already. own_view: what the
    trainee said of it, in writing. besides: steps of checklists that were begun over its own, under the title
    of each. captions: times from the start of the run. notices: sentences about what is missing or damaged.
    lead_s: what is heard of a moment begins so long before it, where words ended then.
    """

    session: str
    sort: Sort
    title: str
    began: datetime
    length_s: float
    trainee: str = ""
    line: str = ""
    own_view: str = ""
    marks: tuple[Mark, ...] = ()
    steps: tuple[Step, ...] = ()
    besides: tuple[Step, ...] = ()
    strengths: tuple[Point, ...] = ()
    gaps: tuple[Point, ...] = ()
    measures: tuple[Measure, ...] = ()
    faults: tuple[Fault, ...] = ()
    score: Score | None = None
    captions: tuple[Cue, ...] = ()
    sounds: tuple[Sound, ...] = ()
    lost: tuple[Lost, ...] = ()
    notices: tuple[str, ...] = ()
    lead_s: float = 0.0
    signed: bool = False

    @property
    def every_step(self) -> tuple[Step, ...]:
        """Its own steps, and those of the other checklists."""
        return (*self.steps, *self.besides)

    @property
    def critical(self) -> tuple[Mark, ...]:
        """The moments that stand alone, in order of time."""
        return tuple(mark for mark in self.marks if mark.critical)

    @property
    def cues(self) -> tuple[Mark, ...]:
        """The cues that were used."""
        return tuple(mark for mark in self.marks if mark.kind is Kind.CUE)
