"""What a question lacks: the one thing to be asked for next."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.care.infusion.burn import RULE_OF_TEN
from handsfree.care.infusion.flow import UNITS, way_to
from handsfree.care.infusion.formulas import FLOW
from handsfree.care.questions.question import FINISH, Question, Subject

_NEEDS: Mapping[Subject, tuple[str, ...]] = MappingProxyType(
    {
        Subject.BAGS: ("volume",),
        Subject.COUNT: ("count",),
        Subject.CATCH_UP: ("left", "time left"),
        Subject.DOSE: ("dose", "drug", "bag"),
        Subject.BACK: ("drug", "bag"),
        Subject.DRAW: ("want", "drug", "bag"),
        Subject.STRENGTH: ("drug", "bag"),
        Subject.MAINTENANCE: ("weight", "method"),
        Subject.DEFICIT: ("percent", "weight", "time"),
        Subject.BURN: ("percent", "weight", "formula", "since"),
        Subject.BOLUS: ("volume per kg", "weight"),
    }
)
"""By subject, what it needs in any case, in the order in which it is asked for."""

_PER_KG: Mapping[Subject, str] = MappingProxyType(
    {Subject.DOSE: "dose", Subject.BACK: "dose unit", Subject.DRAW: "want"}
)
"""Where this is for each kilogram, the weight is needed too."""

_WANTED: Mapping[Subject, str] = MappingProxyType({Subject.BAGS: "time", Subject.BEAT: "drop rate"})
"""What of a flow must be told, or follow, though nobody named it."""

_ORDER = ("volume", "time", "rate", "drop factor", "drop rate")
"""In this order what a flow lacks is asked for; in place of a time a rate may be told."""


def lacking(question: Question) -> str:
    """The first thing that is missing, by its name; empty where nothing is."""
    missing = next((name for name in _NEEDS.get(question.subject, ()) if name not in question.told), "")
    if missing:
        return missing
    per_kg = _PER_KG.get(question.subject, "")
    if "/kg" in question.named(per_kg) and "weight" not in question.told:
        return "weight"
    match question.subject:
        case Subject.FLOW | Subject.BAGS | Subject.BEAT:
            return _of_flow(question)
        case Subject.BURN if _was_given(question):
            return "given"
        case Subject.BACK if not {"rate", "drop rate"} & question.told.keys():
            return "rate"
        case Subject.BACK if "rate" not in question.told and "drop factor" not in question.told:
            return "drop factor"
        case _:
            return ""


def _was_given(question: Question) -> bool:
    """Whether something may have run in since the burn, of which nothing was told, and which is deducted."""
    since, formula = question.value("since"), question.named("formula")
    return bool(since) and formula != RULE_OF_TEN and "given" not in question.told


def _of_flow(question: Question) -> str:
    """What is missing on the shortest way to what is wanted, or to anything, where nothing is named."""
    told = {name for name in UNITS if name in question.told}
    known = _closure(told)
    goal = "time" if question.wants == FINISH else question.wants or _WANTED.get(question.subject, "")
    if goal in known or (not goal and known != told):
        return ""
    ways = [way.needs - known for way in FLOW if way.gives == goal or not goal]
    fewest = min((needs for needs in ways if needs), key=len)
    return next(name for name in _ORDER if name in fewest)


def _closure(told: set[str]) -> set[str]:
    """What is told of a flow, and what follows from it."""
    known = set(told)
    while more := {name for name in UNITS if name not in known and way_to(name, dict.fromkeys(known))}:
        known |= more
    return known
