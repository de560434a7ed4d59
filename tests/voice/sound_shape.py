"""Brings a spoken clip into the shape of all fixtures: level, silence around it, file format."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray

from handsfree.signals import SAMPLE_RATE

Sound = NDArray[np.float32]
"""Samples from -1 to 1 at SAMPLE_RATE."""

LEVEL_DB = -23.0
"""Root mean square of a clip, against full scale."""

BEFORE_S, AFTER_S = 0.3, 0.6
"""Silence around a clip."""

_AUDIBLE = 0.02
"""Of the loudest sample: anything below is the silence that a synthesiser put around its words."""

_PACKING = 0.85
"""How hard Vorbis packs, 0 to 1: both ears hear as well as in the unpacked sound."""


def silence(seconds: float) -> Sound:
    """Nothing."""
    return np.zeros(round(seconds * SAMPLE_RATE), np.float32)


def levelled(sound: Sound) -> Sound:
    """At LEVEL_DB, and no sample beyond full scale."""
    loudness = float(np.sqrt(np.mean(np.square(sound))))
    return np.clip(sound * 10 ** (LEVEL_DB / 20) / max(loudness, 1e-9), -1, 1).astype(np.float32)


def trimmed(sound: Sound) -> Sound:
    """Without the silence at its ends."""
    loud = np.flatnonzero(np.abs(sound) > _AUDIBLE * np.max(np.abs(sound)))
    return sound[loud[0] : loud[-1] + 1]


def clip(sound: Sound) -> Sound:
    """As a fixture."""
    return np.concatenate((silence(BEFORE_S), levelled(trimmed(sound)), silence(AFTER_S)))


def store(sound: Sound, file: Path) -> None:
    """Write as Ogg Vorbis."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with soundfile.SoundFile(
        file, "w", SAMPLE_RATE, 1, "VORBIS", format="OGG", compression_level=_PACKING
    ) as written:
        # libsndfile packs a whole write on the stack: minutes at once end the process.
        for start in range(0, len(sound), SAMPLE_RATE):
            written.write(sound[start : start + SAMPLE_RATE])
