"""A microphone tried with one sentence: plain values, made from its sound, told in words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Flaw(Enum):
    """What is wrong with a microphone, or with the way in which it is spoken to."""

    DEAD = "dead"
    """Nothing comes, not even the hiss of a room."""

    SILENT = "silent"
    """Nothing stands out from the room: nobody spoke, or it is another microphone."""

    FAINT = "faint"
    """Words are so quiet that some are lost."""

    CLIPPED = "clipped"
    """The sound is louder than the device can take."""

    NOISY = "noisy"
    """The room is nearly as loud as the words."""

    UNCLEAR = "unclear"
    """Loud enough, and not understood, or taken for something else."""


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of it. room_db, speech_db: level of the room, and of the loudest speech, in dB of full scale.

    understood: the sentence that the ear heard, empty for none. flaw: None where all is well.
    """

    room_db: float
    speech_db: float
    understood: str
    flaw: Flaw | None
