"""Cuts sound of any rate into frames of one size, as it comes: nothing is kept but a part of a frame."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import soxr
from numpy.typing import NDArray

from handsfree.errors import SoundError
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE, Frame

Samples = NDArray[np.float32]
"""Samples from -1 to 1, one row each, one column for each channel."""

FULL_SCALE = 32768

LOWEST_RATE, HIGHEST_RATE = 4_000, 768_000
"""Samples a second. Below, no word is left; above, no sound card goes."""


class Framer:
    """One stream of samples, cut. rate: its samples a second. Raises SoundError for an absurd rate."""

    def __init__(self, rate: float) -> None:
        if not LOWEST_RATE <= rate <= HIGHEST_RATE:
            raise SoundError(f"Sound at {rate:g} samples a second cannot be heard.", "Record at 16000.")
        self._resampler = (
            None if rate == SAMPLE_RATE else soxr.ResampleStream(rate, SAMPLE_RATE, 1, dtype="float32")
        )
        self._left = np.zeros(0, "<i2")
        self._frames = 0

    def cut(self, samples: Samples, *, last: bool = False) -> Iterator[Frame]:
        """Take the next samples, yield the frames they fill; the last frame is filled up with silence."""
        mono = np.nan_to_num(samples.mean(axis=1, dtype=np.float32) if len(samples) else samples.reshape(-1))
        if self._resampler is not None:
            mono = self._resampler.resample_chunk(mono, last=last)
        whole = np.clip(np.rint(mono * FULL_SCALE), -FULL_SCALE, FULL_SCALE - 1).astype("<i2")
        self._left = np.concatenate((self._left, whole))
        if last:
            self._left = np.pad(self._left, (0, -len(self._left) % FRAME_SAMPLES))
        while len(self._left) >= FRAME_SAMPLES:
            yield self._frame()

    def _frame(self) -> Frame:
        pcm, self._left = self._left[:FRAME_SAMPLES].tobytes(), self._left[FRAME_SAMPLES:]
        self._frames += 1
        return Frame(pcm, self._frames * FRAME_SAMPLES / SAMPLE_RATE)
