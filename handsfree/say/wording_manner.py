"""What is said of how the program speaks, already as it was asked to speak. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.words import worded

_WAYS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "louder": (worded("I speak louder now."), worded("I cannot speak louder than this.")),
        "softer": (worded("I speak softer now."), worded("I do not speak softer than this.")),
        "faster_speech": (worded("I speak faster now."), worded("I do not speak faster than this.")),
        "slower_speech": (worded("I speak slower now."), worded("I do not speak slower than this.")),
        "other_voice": (worded("I speak in this voice now."), ""),
    }
)
"""By command: where it changes something, and at its end."""


def manner_sentence(way: str, *, ends: bool) -> str:
    """What is said of a change, or of that there is none any more."""
    return _WAYS[way][ends]
