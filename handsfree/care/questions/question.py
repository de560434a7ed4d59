"""A question about numbers: what it is about, what it wants, what is told; and its text for the record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from handsfree.care.infusion.formula import Measure


class Subject(StrEnum):
    """What a question is about."""

    FLOW = "flow"
    BAGS = "bags"
    BEAT = "beat"
    COUNT = "count"
    CATCH_UP = "catch up"
    DOSE = "dose"
    BACK = "back"
    DRAW = "draw"
    STRENGTH = "strength"
    MAINTENANCE = "maintenance"
    DEFICIT = "deficit"
    BURN = "burn"
    BOLUS = "bolus"


FINISH = "finish"
"""Wanted of a flow: not how long it takes, but when it ends."""

NUMBER, WANTS = "number", "wants"
"""Told without a unit; what is asked for of the same. Both only in what changes a question."""

SPEEDS = ("time", "rate", "drop rate")
"""With a volume each of them gives the others, so that a new one takes the place of those before."""


@dataclass(frozen=True, slots=True)
class Question:
    """told: by name the value with its unit, as in `1000 mL`, or a name, as in `parkland`.

    wants: the one quantity that is asked for; empty where all that follows is.
    """

    subject: Subject
    wants: str
    told: Mapping[str, str]

    @property
    def text(self) -> str:
        """As in `flow for drop rate; volume=1000 mL; time=480 min`."""
        head = " for ".join(filter(None, (self.subject, self.wants)))
        return "; ".join((head, *(f"{name}={value}" for name, value in self.told.items())))

    def measure(self, name: str) -> Measure | None:
        """A quantity that was told; None where it was not."""
        if name not in self.told:
            return None
        number, _, unit = self.told[name].partition(" ")
        return Measure(Fraction(number), unit)

    def value(self, name: str) -> Fraction | None:
        """The same without its unit."""
        measure = self.measure(name)
        return measure.value if measure else None

    def named(self, name: str) -> str:
        """A name that was told; empty where none was."""
        return self.told.get(name, "")

    def changed(self, text: str, lacks: str = "") -> Question:
        """The question with what a follow-up, or an answer to what it lacks, tells anew."""
        new = _told(text.split("; "))
        wants = new.pop(WANTS, self.wants)
        bare = lacks or self._speed_alone()
        if NUMBER in new and bare in _BARE:
            new[bare] = f"{new.pop(NUMBER)} {_BARE[bare]}"
        like = _LIKE.get(lacks, "")
        if like in new and lacks not in new:
            new = {lacks if name == like else name: value for name, value in new.items()}
        kept = dict(self.told)
        if any(name in new for name in SPEEDS) and "volume" in {**kept, **new}:
            kept = {name: value for name, value in kept.items() if name not in SPEEDS}
        if wants in new or ("drop factor" in new and lacks != "drop factor" and wants == self.wants):
            wants = ""
        return replace(self, told={**kept, **new}, wants=wants)

    def _speed_alone(self) -> str:
        """The rate or the drops a minute that were told of a flow: what "make that seventy five" changes."""
        of_flow = self.subject in (Subject.FLOW, Subject.BAGS, Subject.BEAT)
        return next((name for name in ("rate", "drop rate") if of_flow and name in self.told), "")


_LIKE: Mapping[str, str] = MappingProxyType(
    {"since": "time", "time left": "time", "left": "volume", "bag": "volume", "given": "volume"}
)
"""What a missing quantity may be told as, when that is what was asked for."""

_BARE: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("volume", "left", "bag", "given"), "mL"),
        "rate": "mL/h",
        "drop rate": "gtt/min",
        "drop factor": "gtt/mL",
        "percent": "%",
        "volume per kg": "mL/kg",
    }
)
"""The unit of a number that is told alone. A time and a weight need theirs: hours or minutes, lb or kg."""


def read_question(text: str) -> Question:
    """The question that a text stands for. Raises ValueError for what is none."""
    head, *parts = text.split("; ")
    subject, _, wants = head.partition(" for ")
    return Question(Subject(subject), wants, _told(parts))


def said_twice(text: str) -> str:
    """The name of a quantity that a text tells two values of; empty where none is."""
    parts = [part.partition("=") for part in dict.fromkeys(text.split("; ")) if "=" in part]
    names = [name for name, _, _ in parts]
    return next((name for name in names if names.count(name) > 1), "")


def _told(parts: list[str]) -> dict[str, str]:
    return {name: value for name, _, value in (part.partition("=") for part in parts)}


@dataclass(frozen=True, slots=True)
class Asked:
    """The question at hand. lacks: what was asked for, until `due`; empty once nothing is missing.

    answered: it has an answer, which can be used.
    """

    question: str
    lacks: str = ""
    due: datetime | None = None
    answered: bool = False
