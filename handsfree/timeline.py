"""The time line of kept sound: how it stands to the machine's clock, and where sound is missing in it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum


@dataclass(frozen=True, slots=True)
class Anchor:
    """One moment of a sound on the machine's clock.

    sound_s: seconds of sound from its start. heard_at: when it was heard. drift_ppm: by how many millionths a
    second of sound lasts longer than one of the clock, from there on.
    """

    sound_s: float
    heard_at: datetime
    drift_ppm: float = 0.0


class LostBy(Enum):
    """Where sound was lost on its way into a file."""

    DEVICE = "device"
    """The machine was too slow to take it from the microphone."""

    STORE = "store"
    """It was heard, but the disk was too slow to take it."""


@dataclass(frozen=True, slots=True)
class Silence:
    """In a sound file: silence in the place of sound that was lost, so that all after it stands at its time.

    from_s: seconds from the start of the file. lasted_s: seconds.
    """

    from_s: float
    lasted_s: float
    lost_by: LostBy
