"""How loud kept sound is, part by part, for drawing it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from handsfree.errors import SoundError

PER_S = 10
"""Peaks a second."""


def peaks(file: Path) -> tuple[float, tuple[float, ...]]:
    """Seconds of sound in a file, and the loudest sample of each tenth of one, 0 to 1.

    A file that a kill cut short is read as far as it goes. Raises SoundError for what holds no sound.
    """
    import numpy as np
    import soundfile

    loudest: list[float] = []
    samples = 0
    rate = PER_S
    with suppress(OSError, soundfile.SoundFileError), soundfile.SoundFile(file) as sound:
        rate = sound.samplerate
        for block in sound.blocks(rate // PER_S, dtype="float32", always_2d=True):
            samples += len(block)
            loudest.append(min(float(np.abs(block).max(initial=0)), 1.0))
    if not samples:
        raise SoundError(f"{file} holds no sound that can be read.", "Restore it from a copy.")
    return samples / rate, tuple(loudest)
