"""Questions about numbers, their answers, and answers that are to act."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Number:
    """A number of an answer, exact. name: as formulas have it."""

    name: str
    exact: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class QuestionAnswered:
    """question: as `care/questions/question.py` writes it. Nothing has changed by it.

    unusual: for which of the cautions a second confirmation is wanted, where the answer is to act.
    """

    question: str
    numbers: tuple[Number, ...]
    cautions: tuple[str, ...]
    unusual: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class QuestionLacking:
    """Asked for the first thing that the question lacks, by its name."""

    question: str
    lacks: str


@dataclass(frozen=True, slots=True)
class QuestionRefused:
    """No number follows. why: one sentence."""

    question: str
    why: str


@dataclass(frozen=True, slots=True)
class QuestionDropped:
    """What the question lacks was not told. why: "wrong", "lapsed" or "misheard"."""

    why: str


@dataclass(frozen=True, slots=True)
class AnswerUsed:
    """The values proposed just now come from the answer; unusual as there."""

    unusual: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FinishTold:
    """When the infusion ends by its rate. running: the bag that hangs; else if it were started now."""

    ends: datetime
    left_s: int
    running: bool
