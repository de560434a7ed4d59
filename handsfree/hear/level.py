"""The level of sound on its way in: no offset, and quiet speakers brought to where the ears hear them.

Vosk hears speech at -60 dB of full scale as well as at -20 (23 of 26 sentences against 25); the detector in
front of it loses some at -50 and nearly all at -60. Loud speech needs nothing: what was clipped stays so.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from handsfree.signals import FRAME_S

Sound = NDArray[np.float64]
"""Samples from -1 to 1; the first axis is time."""

LOWEST_HZ = 20.0
"""Nothing below is speech: an offset, the sway of a cable."""

WANTED_DB = -30.0
"""Loudest frames of speech are brought up to this, and never down."""

MOST_GAIN_DB = 30.0
"""More would make speech of the noise of the device itself."""

STANDS_OUT_DB = 12.0
"""What is so far above the quietest of late is somebody or something, and no room tone."""

FALL_DB = 1.0 * FRAME_S
"""The loudest speaker counts; while others are heard, the level follows them by 1 dB a second."""

QUIETEST_ROOM_DB = -80.0
"""A device that gives exact zeros between words must not make its own hiss stand out."""

RISE_DB = 1.0 * FRAME_S
"""The level of the room follows a louder noise by 1 dB a second, and a quieter one at once."""

SILENT_DB = -120.0


class OffsetFilter:
    """One-pole high-pass: y[n] = r (y[n-1] + x[n] - x[n-1]). The offset at the start is no step.

    rate: samples a second. channels: how many columns a piece has.
    """

    def __init__(self, rate: float, channels: int) -> None:
        length = round(rate * FRAME_S)
        keeps = math.exp(-2 * math.pi * LOWEST_HZ / rate)
        self._fades = (keeps ** np.arange(1, length + 1))[:, np.newaxis]
        self._steps = keeps / self._fades
        self._x: Sound | None = None
        self._y = np.zeros(channels)

    def without(self, piece: Sound) -> Sound:
        """The next piece, of FRAME_S or less, without its offset; columns are channels."""
        length = len(piece)
        steps = np.empty_like(piece)
        steps[0] = 0.0 if self._x is None else piece[0] - self._x
        np.subtract(piece[1:], piece[:-1], out=steps[1:])
        steps *= self._steps[:length]
        filtered: Sound = (np.cumsum(steps, axis=0) + self._y) * self._fades[:length]
        self._x, self._y = piece[-1], filtered[-1]
        return filtered


class Gain:
    """Brings quiet speech up, frame by frame, and never into clipping.

    The first word tells how quiet the speaker is; a louder one counts at once, a quieter one by and by. Only
    what stands out from the room is taken for a word: silence, however long, is not turned up.

    speech_db: how loud the speaker's loudest frames are, where it is known before the first word.
    """

    def __init__(self, speech_db: float | None = None) -> None:
        self._room_db = 0.0
        self._speech_db = speech_db
        self._last = 1.0

    def applied(self, frame: Sound) -> Sound:
        """The next frame, louder if the speaker is quiet."""
        self._learn(level_db(frame))
        wanted_db = 0.0 if self._speech_db is None else WANTED_DB - self._speech_db
        if wanted_db <= 0 and self._last == 1.0:
            return frame
        most = 1 / max(float(np.max(np.abs(frame))), 1e-9)
        gain = max(1.0, min(10 ** (min(wanted_db, MOST_GAIN_DB) / 20), most))
        begins, self._last = max(1.0, min(self._last, most)), gain
        return frame * np.linspace(begins, gain, len(frame))

    def _learn(self, now_db: float) -> None:
        self._room_db = max(QUIETEST_ROOM_DB, min(now_db, self._room_db + RISE_DB))
        if now_db >= self._room_db + STANDS_OUT_DB:
            known_db = now_db if self._speech_db is None else self._speech_db - FALL_DB
            self._speech_db = max(now_db, known_db)


def level_db(sound: Sound) -> float:
    """Root mean square of some samples in dB of full scale, at least SILENT_DB."""
    power = float(np.dot(sound, sound)) / len(sound)
    return max(SILENT_DB, 10 * math.log10(max(power, 1e-30)))
