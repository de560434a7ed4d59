"""What a mark can say of its moment, and the code word that says the same and tells a trainee nothing."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType


class Kind(Enum):
    """Of a mark. The first eight are verdicts: on a step or alone."""

    DONE = "done"
    PROMPTED = "prompted"
    OUT_OF_ORDER = "out of order"
    MISSED = "missed"
    NOT_SEEN = "not seen"
    UNSAFE = "unsafe"
    CONTAMINATED = "contaminated"
    ATTEMPT = "attempt"
    FREE = "mark"
    """A moment; the words after it say what of it."""
    NOTE = "note"
    """Words; the moment matters less."""
    LAP = "lap"
    CLOCK_STARTED = "clock started"
    CLOCK_STOPPED = "clock stopped"
    EMERGENCY = "emergency"
    """Words of an emergency were heard, in earnest or not."""


VERDICTS = tuple(Kind)[:8]

WITH_WORDS = (Kind.FREE, Kind.NOTE)
"""After these the next words are kept, whatever they are."""

CODES: Mapping[Kind, str] = MappingProxyType(
    {
        Kind.DONE: "octopus",
        Kind.PROMPTED: "giraffe",
        Kind.OUT_OF_ORDER: "waterfall",
        Kind.MISSED: "harvest",
        Kind.NOT_SEEN: "penguin",
        Kind.UNSAFE: "umbrella",
        Kind.CONTAMINATED: "violin",
        Kind.ATTEMPT: "tornado",
    }
)
"""Chosen for sound: of sixty everyday words, those whose sounds are furthest from one another and from the
words of all shipped checklists. `grammars/drill.jsgf` has them too."""
