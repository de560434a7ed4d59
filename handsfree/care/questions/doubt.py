"""What is in doubt of a question that could be two: that part alone is asked for again. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from handsfree.care.commands import Say
from handsfree.care.questions.question import Question, read_question

_ASKS = ("question", "bare_question")
_TOLD_ALONE = frozenset(
    (
        *("volume", "time", "rate", "drop factor", "left", "time left", "drug", "bag", "dose", "want"),
        *("weight", "percent", "since", "volume per kg"),
    )
)
"""What can be asked for, and told, by itself."""


def in_doubt(candidates: Iterable[Say]) -> tuple[Question, str] | None:
    """The question without the one part in which all differ, and the name of that; None where it is more."""
    said = tuple(candidates)
    if any(one.rule not in _ASKS or one.line for one in said):
        return None
    first, *others = (read_question(one.reason) for one in said)
    shapes = {(one.subject, one.wants, frozenset(one.told)) for one in (first, *others)}
    differ = [name for name in first.told if any(one.told.get(name) != first.told[name] for one in others)]
    if len(shapes) > 1 or len(differ) != 1 or differ[0] not in _TOLD_ALONE:
        return None
    told = {name: value for name, value in first.told.items() if name != differ[0]}
    return replace(first, told=told), differ[0]
