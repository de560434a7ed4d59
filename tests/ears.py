"""The Vosk ear, loaded once for all tests of a process.

PocketSphinx is not here: it adapts to what it heard, so each file of tests has its own.
"""

from __future__ import annotations

from functools import cache

from handsfree.hear.models import find_model
from handsfree.hear.vosk_ear import VoskEar


def vosk() -> VoskEar:
    """As new: whatever it heard has ended, and the room is not known."""
    ear = _loaded()
    ear.hear(None)
    return ear


@cache
def _loaded() -> VoskEar:
    return VoskEar(find_model())
