"""A drill: who is watched, runs, and the marks of the instructor."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from handsfree.care.drill.marks import Kind


@dataclass(frozen=True, slots=True)
class TraineeNamed:
    """Who makes the next run: a name of the list, letters or a number; empty for nobody in particular."""

    name: str


@dataclass(frozen=True, slots=True)
class DrillNamed:
    """What the drill is called, by letters and figures."""

    name: str


@dataclass(frozen=True, slots=True)
class RunBegun:
    """said_at: when the go was over."""

    said_at: datetime


@dataclass(frozen=True, slots=True)
class RunEnded:
    """said_at: when the words that ended it were over."""

    said_at: datetime


@dataclass(frozen=True, slots=True)
class MarkSet:
    """One moment of a run. number: counted through the session. said_at: when its words were over.

    step: empty where it stands alone. words: as they were said.
    """

    number: int
    kind: Kind
    said_at: datetime
    step: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class MarkMoved:
    """A mark stands so many seconds earlier than it did."""

    number: int
    earlier_s: int


@dataclass(frozen=True, slots=True)
class MarkDropped:
    """A mark was taken away."""

    number: int


@dataclass(frozen=True, slots=True)
class WordsKept:
    """The words of a mark. text: what the ear made of them, unverified. sound: path of the clip."""

    number: int
    text: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class WordsMissed:
    """No words came after a mark that waited for them."""

    number: int


@dataclass(frozen=True, slots=True)
class ConfirmingChanged:
    """Whether marks are confirmed by words from now on, not by sounds alone."""

    by_words: bool


@dataclass(frozen=True, slots=True)
class MarkRefused:
    """What was said of marks or of the clock changes nothing. why: one sentence."""

    why: str


@dataclass(frozen=True, slots=True)
class SoFarTold:
    """How long the run has lasted was asked for, and told."""

    so_far_s: int
