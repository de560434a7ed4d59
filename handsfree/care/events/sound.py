"""The sound of a session: in which file it is, and what each second of it is on the clock."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from handsfree.timeline import Anchor, Silence


@dataclass(frozen=True, slots=True)
class SoundStarted:
    """All sound is written into a file from now on. file: its path in the sessions folder.

    began: when its first sample was heard, as far as that is known at once; an anchor may correct it.
    """

    file: str
    began: datetime


@dataclass(frozen=True, slots=True)
class SoundSynchronised:
    """One moment of the file on the clock. Seconds count from its start."""

    file: str
    anchor: Anchor


@dataclass(frozen=True, slots=True)
class SoundMissed:
    """Sound was lost; the file has silence in its place."""

    file: str
    silence: Silence


@dataclass(frozen=True, slots=True)
class SoundStopped:
    """The file was ended. length_s: seconds of sound in it."""

    file: str
    length_s: float
