"""The steady sound of the room is taken out before an ear listens for words: engines, fans, hiss, rain.

A filter in the frequencies, as hearing aids have one. Which power the room has in each is learned while
nobody speaks, and followed in speech where a frequency holds none (Gerkmann and Hendriks, Unbiased MMSE-based
noise power estimation with low complexity and low tracking delay, IEEE TASLP 20, 2012, section IV). How far
speech stands over it comes from what was let through a moment before (Ephraim and Malah, Speech enhancement
using a minimum mean-square error short-time spectral amplitude estimator, IEEE TASSP 32, 1984, equation 51).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from handsfree.signals import FRAME_SAMPLES

Power = NDArray[np.float64]
"""Of one window, by frequency: FRAME_SAMPLES / 2 + 1 numbers."""

LEAST_DB = -15.0
"""Speech is never taken to lie further below the room: all of the room gone would sound like nothing that a
model has been taught."""

BEFORE = 0.8
"""What the moment before counts for in telling how far speech stands over the room."""

FOLLOWS = 0.1
"""What a window without speech changes in what is known of the room."""

SPEECH_DB = 15.0
"""Where there is speech it is taken to stand so far over the room; there as likely is some as none."""

STUCK = 0.99
"""A frequency that seems never to rest has become louder for good: speech is never surer there than this."""

_HOP = FRAME_SAMPLES // 2
_WINDOW = np.sqrt(np.hanning(FRAME_SAMPLES + 1)[:-1])
_MOST_OVER = 1e3
_SILENT = 1e-3


class RoomFilter:
    """Takes a room's steady sound out of frames of speech, half a frame late. A room that is not known yet
    counts as silent."""

    def __init__(self) -> None:
        self._room: Power = np.zeros(_HOP + 1)
        self._known = 0
        self.begin()

    def learn(self, pcm: bytes) -> None:
        """Take a frame, as in Frame, in which nobody speaks."""
        power = np.abs(np.fft.rfft(_samples(pcm) * _WINDOW)) ** 2
        # The first few count alike.
        self._known = min(self._known + 1, round(1 / FOLLOWS))
        self._room += (power - self._room) / self._known

    def begin(self) -> None:
        """Forget the speech so far: what follows is another utterance."""
        self._last, self._overlap = np.zeros(0), np.zeros(_HOP)
        self._let = np.ones(_HOP + 1)
        self._lately = np.zeros(_HOP + 1)

    def clean(self, pcm: bytes) -> bytes:
        """The next piece of an utterance with less of the room: the first half of the first frame, then each
        time the second half of the frame before and the first of this one."""
        sound = np.concatenate((self._last, _samples(pcm)))
        self._last = sound[-_HOP:]
        pieces = [self._window(sound[at : at + FRAME_SAMPLES]) for at in range(0, len(sound) - _HOP, _HOP)]
        return np.clip(np.round(np.concatenate(pieces)), -32768, 32767).astype("<i2").tobytes()

    def _window(self, samples: NDArray[np.float64]) -> NDArray[np.float64]:
        spectrum = np.fft.rfft(samples * _WINDOW)
        power = np.abs(spectrum) ** 2
        over = np.minimum(power / np.maximum(self._room, _SILENT), _MOST_OVER)
        speech = BEFORE * self._let + (1 - BEFORE) * np.maximum(over - 1, 0)
        speech = np.maximum(speech, 10 ** (LEAST_DB / 10))
        gain = np.sqrt(speech / (1 + speech))
        self._let = gain * gain * over
        self._follow(power, over)
        whole = np.fft.irfft(spectrum * gain) * _WINDOW
        ready, self._overlap = self._overlap + whole[:_HOP], whole[_HOP:]
        return ready

    def _follow(self, power: Power, over: Power) -> None:
        there = 10 ** (SPEECH_DB / 10)
        spoken = 1 / (1 + (1 + there) * np.exp(-over * there / (1 + there)))
        self._lately = 0.9 * self._lately + 0.1 * spoken
        spoken = np.where(self._lately > STUCK, np.minimum(spoken, STUCK), spoken)
        self._room += FOLLOWS * (1 - spoken) * (power - self._room)


def _samples(pcm: bytes) -> NDArray[np.float64]:
    return np.frombuffer(pcm, "<i2").astype(np.float64)
