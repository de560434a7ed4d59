"""What became of steps."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class StepOpened:
    """The step is the one at hand. again: it was there before (after a back, a lapse or an undo)."""

    step: str
    again: bool = False


@dataclass(frozen=True, slots=True)
class StepClosed:
    """kind and value are empty where words close the step. words: as they were said. confirmed: read back."""

    step: str
    kind: str = ""
    value: str = ""
    words: str = ""
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class StepSkipped:
    """reason: words of the grammar, or what an ear made of them. sound: its clip where it is unverified."""

    step: str
    reason: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class StepLeftOpen:
    """Asked and not understood again and again: it stays visibly open."""

    step: str


@dataclass(frozen=True, slots=True)
class StepsReopened:
    """because: the finding, or what changed."""

    steps: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class AlreadyClosed:
    """Words of a step that is closed."""

    step: str


@dataclass(frozen=True, slots=True)
class FindingReported:
    """Something reported that closes no step."""

    finding: str


@dataclass(frozen=True, slots=True)
class ScoreTold:
    """A score followed from these signs. beyond: signs that belong to a higher one, and were found alone."""

    score: int
    signs: tuple[str, ...]
    beyond: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AttemptsUsedUp:
    """As many failed attempts as one person makes."""

    finding: str
    attempts: int


@dataclass(frozen=True, slots=True)
class BranchChosen:
    """The steps of other branches fall away."""

    branch: str


@dataclass(frozen=True, slots=True)
class PathShortened:
    """Only critical steps are asked from now on."""


@dataclass(frozen=True, slots=True)
class CueFired:
    """A timer reached its time. late_s: how long ago."""

    step: str
    say: str
    urgent: bool
    due: datetime
    late_s: int = 0


@dataclass(frozen=True, slots=True)
class StopRaised:
    """The step cannot go on. may_override: a spoken reason lifts it.

    ground: out_of_date, differs, clash, attempts or disagrees. kind, value: the answer that raised it.
    other_kind, other_value: what it does not agree with.
    """

    step: str
    ground: str
    kind: str
    value: str
    other_kind: str = ""
    other_value: str = ""
    may_override: bool = False


@dataclass(frozen=True, slots=True)
class StopOverridden:
    """Gone on all the same, for this reason."""

    step: str
    reason: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class StopLifted:
    """The ground of the stop is gone."""

    step: str
