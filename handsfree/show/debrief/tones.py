"""How marks and states are coloured: never by colour alone, each has its sign and its word too."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.show.debrief.marks import Kind, State

_GOOD, _CARE, _BAD, _PLAIN = "good", "care", "bad", "plain"

TONES: Mapping[Kind, str] = MappingProxyType(
    {
        Kind.DONE: _GOOD,
        Kind.PROMPTED: _CARE,
        Kind.OUT_OF_ORDER: _CARE,
        Kind.MISSED: _BAD,
        Kind.NOT_SEEN: _CARE,
        Kind.UNSAFE: _BAD,
        Kind.CONTAMINATED: _BAD,
        Kind.ATTEMPT: _PLAIN,
        Kind.NOTE: _PLAIN,
        Kind.LAP: _PLAIN,
        Kind.CLOCK: _PLAIN,
        Kind.CUE: _CARE,
        Kind.FAULT: _PLAIN,
        Kind.TIMER: _PLAIN,
        Kind.STOP: _CARE,
        Kind.SKIPPED: _CARE,
        Kind.EMERGENCY: _BAD,
    }
)


def tone(of: Kind | State) -> str:
    """The tone of a mark or a step, a class of the style sheet."""
    return TONES[Kind.SKIPPED if of is State.LEFT_OPEN else Kind(of.value)]


def sign(of: Kind | State) -> str:
    """The name of the drawn sign of a mark or a step."""
    return "skipped" if of is State.LEFT_OPEN else of.value.replace(" ", "-")
