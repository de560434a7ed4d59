"""What is said of how the program speaks, already as it was asked to speak. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_WAYS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "louder": ("I speak louder now.", "I cannot speak louder than this."),
        "softer": ("I speak softer now.", "I do not speak softer than this."),
        "faster_speech": ("I speak faster now.", "I do not speak faster than this."),
        "slower_speech": ("I speak slower now.", "I do not speak slower than this."),
        "other_voice": ("I speak in this voice now.", ""),
    }
)
"""By command: where it changes something, and at its end."""


def manner_sentence(way: str, *, ends: bool) -> str:
    """What is said of a change, or of that there is none any more."""
    return _WAYS[way][ends]
