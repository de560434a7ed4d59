"""What a run is found to be: a mark for each step, failures, stretches of time, faults, cues."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from handsfree.care.assessment import Rule


class Verdict(Enum):
    """What became of a step."""

    DONE = "done"
    PROMPTED = "prompted"
    OUT_OF_ORDER = "out of order"
    MISSED = "missed"
    NOT_SEEN = "not seen"


@dataclass(frozen=True, slots=True)
class Saying:
    """A step was said. prompted: it had been told before."""

    step: str
    at: datetime
    kind: str = ""
    value: str = ""
    words: str = ""
    prompted: bool = False


@dataclass(frozen=True, slots=True)
class StepMark:
    """seen: an instructor saw it done, or saw that it was not; None where nobody watched."""

    step: str
    verdict: Verdict
    saying: Saying | None = None
    seen: bool | None = None


@dataclass(frozen=True, slots=True)
class Failure:
    """A rule that was not kept. rule: its name, also of a fault or finding that was not answered.

    step: the one at which it failed; empty where by time alone. because: the step that lacked, or what was
    wrong. corrected: set right by the trainee before it did harm. overruled: by an instructor.
    """

    rule: str
    at: datetime
    why: str
    step: str = ""
    because: str = ""
    critical: bool = False
    corrected: bool = False
    overruled: bool = False

    @property
    def stands(self) -> bool:
        """Whether it counts."""
        return not self.corrected and not self.overruled


@dataclass(frozen=True, slots=True)
class Stretch:
    """A time that a rule limits. ended: None where it was not. least_s: what it should take at least."""

    rule: Rule
    began: datetime
    ended: datetime | None
    least_s: int = 0

    @property
    def took_s(self) -> float | None:
        """Seconds, None where it was not ended."""
        return (self.ended - self.began).total_seconds() if self.ended else None


@dataclass(frozen=True, slots=True)
class FaultMark:
    """Something that was made to go wrong. met: when the right thing was done, None where it was not."""

    fault: str
    at: datetime
    met: datetime | None = None


@dataclass(frozen=True, slots=True)
class CueMark:
    """Help that was given. rung 0: what was missed was told."""

    at: datetime
    step: str
    rung: int
    asked: bool = True


@dataclass(frozen=True, slots=True)
class Marking:
    """All marks of a run. steps: those that apply, in order of the checklist."""

    steps: tuple[StepMark, ...]
    failures: tuple[Failure, ...] = ()
    stretches: tuple[Stretch, ...] = ()
    faults: tuple[FaultMark, ...] = ()
    cues: tuple[CueMark, ...] = ()
    attempts: int = 0

    @property
    def critical(self) -> tuple[Failure, ...]:
        """Critical errors that stand, in order of time."""
        return tuple(one for one in self.failures if one.critical and one.stands)

    def of(self, *verdicts: Verdict) -> tuple[StepMark, ...]:
        """The steps of these verdicts."""
        return tuple(one for one in self.steps if one.verdict in verdicts)
