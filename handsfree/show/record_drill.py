"""What each event of a drill is in the record: fields of its entry, from who on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.say.wording_keys import key
from handsfree.say.wording_written import unverified
from handsfree.words import worded

_I, MARK = "instructor", "mark "


def _number(event: e.MarkSet | e.MarkMoved | e.MarkDropped | e.WordsKept) -> str:
    return f"{MARK}{event.number}"


def _mark(event: e.MarkSet, _: Checklist) -> tuple[str, ...]:
    kind = key(event.kind.value)
    return (_I, _number(event), key(event.step) or kind, kind, worded("said: {words}", words=event.words))


def _words(event: e.WordsKept, _: Checklist) -> tuple[str, ...]:
    return (_I, _number(event), key("words"), event.text, unverified(event.sound))


DRILL_ENTRIES: Mapping[type, Callable[[Any, Checklist], tuple[str, ...] | None]] = MappingProxyType(
    {
        e.TraineeNamed: lambda event, _: (_I, "trainee", event.name or key("not named")),
        e.DrillNamed: lambda event, _: (_I, "drill", event.name),
        e.RunBegun: lambda event, _: (_I, "run", key("begun")),
        e.RunEnded: lambda event, _: (_I, "run", key("ended")),
        e.MarkSet: _mark,
        e.MarkMoved: lambda event, _: (
            *(_I, _number(event), key("moved"), worded("{seconds} s earlier", seconds=event.earlier_s)),
        ),
        e.MarkDropped: lambda event, _: (_I, _number(event), key("taken away")),
        e.WordsKept: _words,
    }
)
"""Those not named here are in events.jsonl alone."""
