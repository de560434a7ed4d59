"""Cuts sound of any rate and any number of channels into frames of one size, as it comes.

Everything on the way works on pieces as long as a frame, so that it does not matter in which blocks the sound
arrives: the offset is taken away, one channel is chosen, resampled, and brought to a level that can be heard.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import soxr
from numpy.typing import NDArray

from handsfree.errors import SoundError
from handsfree.hear.channels import LoudestChannel
from handsfree.hear.level import Gain, OffsetFilter, level_db
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE, Frame, Taken
from handsfree.words import worded

Samples = NDArray[np.float32]
"""Samples from -1 to 1, one row each, one column for each channel."""

FULL_SCALE = 32768

LOWEST_RATE, HIGHEST_RATE = 4_000, 768_000
"""Samples a second. Below, no word is left; above, no sound card goes."""

CLIPPED = 0.99
"""A sample beyond this share of full scale was cut off by the device."""


class Framer:
    """One stream of samples, cut. rate: its samples a second. speech_db: as in `Gain`.

    Raises SoundError for an absurd rate.
    """

    def __init__(self, rate: float, channels: int = 1, speech_db: float | None = None) -> None:
        if not LOWEST_RATE <= rate <= HIGHEST_RATE:
            raise SoundError(
                worded("Sound at {rate:g} samples a second cannot be heard.", rate=rate),
                worded("Record at 16000."),
            )
        self._piece = round(rate * FRAME_S)
        self._resampler = (
            None if rate == SAMPLE_RATE else soxr.ResampleStream(rate, SAMPLE_RATE, 1, dtype="float64")
        )
        self._offset, self._channel = OffsetFilter(rate, channels), LoudestChannel()
        self._gain = Gain(speech_db)
        self._arrived, self._lost = np.zeros((0, channels)), False
        self._left = np.zeros(0)
        self._frames = 0

    def cut(self, samples: Samples, *, last: bool = False, lost: bool = False) -> Iterator[Frame]:
        """Take the next samples, yield the frames they fill; the last frame is filled up with silence.

        lost: they are silence in the place of sound that the machine was too slow to take.
        """
        arrived = np.concatenate((self._arrived, _believable(samples)))
        whole = len(arrived) if last else len(arrived) // self._piece * self._piece
        self._arrived = arrived[whole:]
        lost = lost and len(samples) > 0
        waited_lost = self._lost
        self._lost = len(self._arrived) > 0 and (lost or (waited_lost and not whole))
        for start in range(0, whole, self._piece):
            piece = arrived[start : min(start + self._piece, whole)]
            yield from self._through(piece, lost or (waited_lost and start == 0))
        if last:
            yield from self._rest()

    def _through(self, piece: NDArray[np.float64], lost: bool) -> Iterator[Frame]:
        clipped = np.count_nonzero(np.abs(piece) >= CLIPPED) / len(piece)
        one = self._channel.of(self._offset.without(piece))
        taken = Taken(level_db(one), min(clipped, 1.0), lost)
        if self._resampler is not None:
            one = self._resampler.resample_chunk(one)
        self._left = np.concatenate((self._left, one))
        while len(self._left) >= FRAME_SAMPLES:
            yield self._frame(taken)

    def _rest(self) -> Iterator[Frame]:
        if self._resampler is not None:
            self._left = np.concatenate((self._left, self._resampler.resample_chunk(np.zeros(0), last=True)))
        self._left = np.pad(self._left, (0, -len(self._left) % FRAME_SAMPLES))
        while len(self._left):
            yield self._frame(Taken(level_db(self._left[:FRAME_SAMPLES])))

    def _frame(self, taken: Taken) -> Frame:
        sound, self._left = self._gain.applied(self._left[:FRAME_SAMPLES]), self._left[FRAME_SAMPLES:]
        whole = np.rint(sound * FULL_SCALE)
        np.minimum(np.maximum(whole, -FULL_SCALE, out=whole), FULL_SCALE - 1, out=whole)
        self._frames += 1
        return Frame(whole.astype("<i2").tobytes(), self._frames * FRAME_SAMPLES / SAMPLE_RATE, taken)


def _believable(samples: Samples) -> NDArray[np.float64]:
    """Samples from -1 to 1; what is no number is silence."""
    with np.errstate(invalid="ignore"):  # a signalling NaN warns when it is cast
        sound = samples.astype(np.float64)
    np.minimum(np.maximum(sound, -1.0, out=sound), 1.0, out=sound)
    return np.nan_to_num(sound) if math.isnan(sound.sum()) else sound
