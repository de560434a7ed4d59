"""Where a clean synthesised sentence begins and ends: its own samples tell, no ear is asked."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import soundfile

from handsfree.signals import SAMPLE_RATE
from tests.voice.synthesisers import Sound

STEP = SAMPLE_RATE // 100

BELOW_PEAK_DB = 40.0
"""A piece of 10 ms that is quieter than the loudest by more is not speech."""

MARGIN = 3 * STEP
"""Samples that are left on both sides."""


def sound_of(file: Path) -> Sound:
    """The samples of a file."""
    return np.asarray(soundfile.read(file, dtype="float32")[0], np.float32)


def edges(sound: Sound) -> tuple[float, float]:
    """Seconds of the first and the last sound."""
    pieces = sound[: len(sound) // STEP * STEP].reshape(-1, STEP).astype(np.float64)
    levels = np.sqrt(np.mean(pieces * pieces, axis=1))
    loud = np.flatnonzero(levels > levels.max() * 10 ** (-BELOW_PEAK_DB / 20))
    return float(loud[0]) * STEP / SAMPLE_RATE, float(loud[-1] + 1) * STEP / SAMPLE_RATE


def trimmed(sound: Sound) -> Sound:
    """The sound without the silence around it, but for a margin."""
    begins_s, ends_s = edges(sound)
    begin, end = round(begins_s * SAMPLE_RATE), round(ends_s * SAMPLE_RATE)
    return sound[max(0, begin - MARGIN) : end + MARGIN]
