"""What each event of a drill is in the record: fields of its entry, from who on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.say.wording_written import unverified

_I = "instructor"


def _mark(event: e.MarkSet, _: Checklist) -> tuple[str, ...]:
    step = event.step.replace("_", " ")
    return (_I, f"mark {event.number}", step or event.kind.value, event.kind.value, f"said: {event.words}")


def _words(event: e.WordsKept, _: Checklist) -> tuple[str, ...]:
    return (_I, f"mark {event.number}", "words", event.text, unverified(event.sound))


DRILL_ENTRIES: Mapping[type, Callable[[Any, Checklist], tuple[str, ...] | None]] = MappingProxyType(
    {
        e.TraineeNamed: lambda event, _: (_I, "trainee", event.name or "not named"),
        e.DrillNamed: lambda event, _: (_I, "drill", event.name),
        e.RunBegun: lambda event, _: (_I, "run", "begun"),
        e.RunEnded: lambda event, _: (_I, "run", "ended"),
        e.MarkSet: _mark,
        e.MarkMoved: lambda event, _: (
            *(_I, f"mark {event.number}", "moved", f"{event.earlier_s} s earlier"),
        ),
        e.MarkDropped: lambda event, _: (_I, f"mark {event.number}", "taken away"),
        e.WordsKept: _words,
    }
)
"""Those not named here are in events.jsonl alone."""
