"""How the program is asked to speak: louder, softer, faster, slower, in another voice. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Protocol

from handsfree.care import events as e
from handsfree.care.commands import Say
from handsfree.signals import Manner

MOST = 2
"""So many steps from where it began, either way: at no end can it not be understood any more."""


class _Course(Protocol):
    """A decision of any kind of session."""

    def add(self, event: e.Event) -> object: ...


def _ask(course: _Course, said: Say) -> None:
    course.add(e.MannerChanged(said.rule))


_CHANGES: Mapping[str, Callable[[Manner], Manner]] = MappingProxyType(
    {
        "louder": lambda one: replace(one, loudness=min(one.loudness + 1, MOST)),
        "softer": lambda one: replace(one, loudness=max(one.loudness - 1, -MOST)),
        "faster_speech": lambda one: replace(one, pace=min(one.pace + 1, MOST)),
        "slower_speech": lambda one: replace(one, pace=max(one.pace - 1, -MOST)),
        "other_voice": lambda one: replace(one, voice=one.voice + 1),
    }
)

MANNERS: Mapping[str, Callable[[_Course, Say], None]] = MappingProxyType(dict.fromkeys(_CHANGES, _ask))
"""What each command about the program's own speech does, in a session of any kind."""


def changed(manner: Manner, way: str) -> Manner:
    """The manner after it was changed in one way, a name of MANNERS; itself at its end."""
    return _CHANGES[way](manner)


def kept_manner(records: Iterable[e.Recorded]) -> Manner:
    """The manner of a session after these events."""
    manner = Manner()
    for record in records:
        if isinstance(record.event, e.MannerChanged):
            manner = changed(manner, record.event.way)
    return manner
