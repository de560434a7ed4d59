"""A drill as it stands: who is watched, the runs so far, and their marks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from handsfree.care.checklist import Checklist
from handsfree.care.drill.marks import Kind
from handsfree.care.drill.rules import Mode
from handsfree.signals import Keeps


@dataclass(frozen=True, slots=True)
class Mark:
    """One moment. text, sound: the words that belong to it, unverified, and the path of their clip."""

    number: int
    kind: Kind
    at: datetime
    step: str = ""
    words: str = ""
    text: str = ""
    sound: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """One run of one trainee. ended: None while it goes on, or where it was cut off. marks: as they came."""

    trainee: str
    began: datetime
    ended: datetime | None = None
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Session:
    """Everything the next decision depends on.

    trainees: those that can be named. was: the mode to come back to. words_due: until when words of a mark
    are waited for. by_words: marks are confirmed by words too. raised: name of the last emergency. said: how
    many marks were ever set.
    """

    checklist: Checklist
    started: datetime
    utc_offset_min: int = 0
    trainees: tuple[str, ...] = ()
    keeps: Keeps = Keeps.ALL
    mode: Mode = Mode.READY
    was: Mode = Mode.READY
    drill: str = ""
    trainee: str = ""
    runs: tuple[Run, ...] = ()
    words_due: datetime | None = None
    by_words: bool = False
    raised: str = ""
    said: int = 0

    @property
    def over(self) -> bool:
        """Whether it has ended."""
        return self.mode is Mode.OVER

    @property
    def wants_free_words(self) -> bool:
        """Whether the words of a mark are waited for."""
        return self.mode is Mode.NOTING

    @property
    def run(self) -> Run | None:
        """The run that goes on, or was the last."""
        return self.runs[-1] if self.runs else None

    @property
    def last(self) -> Mark | None:
        """The mark that was set last in this run and is still there."""
        return self.run.marks[-1] if self.run and self.run.marks else None

    def deadline(self) -> datetime | None:
        """When the words of a mark are no longer waited for."""
        return self.words_due if self.mode is Mode.NOTING else None
