"""What a debrief points at: moments, steps, faults that were set, and sentences about them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """What a mark says of its moment. The first eight are an instructor's, on a step or alone."""

    DONE = "done"
    PROMPTED = "prompted"
    OUT_OF_ORDER = "out of order"
    MISSED = "missed"
    NOT_SEEN = "not seen"
    UNSAFE = "unsafe"
    CONTAMINATED = "contaminated"
    ATTEMPT = "attempt"
    NOTE = "note"
    LAP = "lap"
    CLOCK = "stop-clock"
    CUE = "cue"
    """The trainee asked for help, and got it."""
    FAULT = "fault"
    """Something was made to go wrong, to be met."""
    TIMER = "timer"
    STOP = "stop"
    """Two answers did not go together."""
    SKIPPED = "skipped"
    EMERGENCY = "emergency"


class Who(Enum):
    """Who made a mark, or closed a step. Only an instructor can say that a thing was seen."""

    INSTRUCTOR = "instructor"
    PROGRAM = "program"
    TRAINEE = "trainee"


class State(Enum):
    """What became of a step."""

    DONE = "done"
    PROMPTED = "prompted"
    OUT_OF_ORDER = "out of order"
    MISSED = "missed"
    NOT_SEEN = "not seen"
    SKIPPED = "skipped"
    LEFT_OPEN = "left open"


@dataclass(frozen=True, slots=True)
class Mark:
    """One moment. Times are seconds from the start of the run.

    step: title of the step it stands on; empty where it stands alone. text: what is to be read of it.
    until_s: end of the words that belong to it. rule: the rule that failed here, with its reason.
    before_s: how much sound before the moment is worth hearing. critical: never averaged away.
    """

    at_s: float
    kind: Kind
    who: Who
    step: str = ""
    text: str = ""
    rule: str = ""
    until_s: float | None = None
    before_s: float = 8.0
    critical: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the checklist as the run went. name: its key, the same in every run; title: for reading.

    at_s: when it was done, None where it was not. value: what was read or said of it. said: it was heard
    that it was done. seen: an instructor saw it done, or saw that it was not; None where nobody watched.
    """

    name: str
    title: str
    state: State
    at_s: float | None = None
    phase: str = ""
    value: str = ""
    reason: str = ""
    critical: bool = False
    said: bool = False
    seen: bool | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """Something made to go wrong. answer: what is right to do. met_s: when that was done, None where not."""

    at_s: float
    text: str
    answer: str
    met_s: float | None = None


@dataclass(frozen=True, slots=True)
class Point:
    """A strength or a gap: one sentence, and the moment to hear it at, where it has one."""

    text: str
    at_s: float | None = None
