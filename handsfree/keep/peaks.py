"""How loud kept sound is, part by part, for drawing it."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from itertools import chain
from pathlib import Path

from handsfree.keep.kept_sound import opened

PER_S = 10
"""Peaks a second."""

_BLOCK_S = 10
"""Seconds that are held at once."""

_LEAST_PART_S = 60
"""A shorter part of a file is not worth a thread of its own."""


def peaks(file: Path) -> tuple[float, tuple[float, ...]]:
    """Seconds of sound in a file, and the loudest sample of each tenth of one, 0 to 1.

    A file that a kill cut short is read as far as it goes. Raises SoundError for what holds no sound. Opus
    takes time to decode, so each processor gets a part.
    """
    with opened(file) as sound:
        frames, rate = sound.frames, sound.samplerate
    threads = min(os.cpu_count() or 1, max(1, frames // (_LEAST_PART_S * rate)))
    tenths = frames // (rate // PER_S)
    starts = [tenths * part // threads * (rate // PER_S) for part in range(threads)]
    with ThreadPoolExecutor(threads) as pool:
        parts = pool.map(_peaks, [file] * threads, starts, [*starts[1:], frames])
        return frames / rate, tuple(chain.from_iterable(parts))


def _peaks(file: Path, first: int, last: int) -> list[float]:
    """Of the samples from one number up to another."""
    import numpy as np

    found: list[float] = []
    with opened(file) as sound:
        tenth = sound.samplerate // PER_S
        sound.seek(first)
        for block in sound.blocks(_BLOCK_S * PER_S * tenth, frames=last - first, dtype="float32"):
            level = np.abs(block.reshape(len(block), -1)).max(axis=1)
            tenths = np.pad(level, (0, -len(level) % tenth)).reshape(-1, tenth).max(axis=1)
            found.extend(np.minimum(tenths, 1.0).tolist())
    return found
