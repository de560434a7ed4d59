"""What becomes of a practice run: what was said to be done, cues, faults, and what an instructor decides."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class StepSaid:
    """A trainee said that a step is done, or announced it. It may have been said anywhere in the talk.

    kind and value are empty where words close the step; value also where it was not heard for sure.
    said_at: when its words ended.
    """

    step: str
    said_at: datetime
    kind: str = ""
    value: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class RuleBroken:
    """A critical rule failed: at this step, empty where by time alone. at: when."""

    rule: str
    step: str
    at: datetime


@dataclass(frozen=True, slots=True)
class CueGiven:
    """What comes next was hinted at (rung 1), told (2), or told with its reason (3).

    asked: the trainee asked for it; else it came because nothing was said for long.
    """

    step: str
    rung: int
    asked: bool = True


@dataclass(frozen=True, slots=True)
class MissedTold:
    """Which steps lie behind and are not done: asked for."""

    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TimeTold:
    """How long the run takes so far: asked for."""

    passed_s: int


@dataclass(frozen=True, slots=True)
class FaultSet:
    """Something goes wrong from now on. drawn: by the program, not by an instructor."""

    fault: str
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class Overruled:
    """An instructor decides. what: "seen" or "not seen" of a step, "accepted" of a rule or fault that failed.

    name: of the step, rule or fault.
    """

    what: str
    name: str
