"""Noise as an aid station has it, computed: the same every time."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from handsfree.signals import SAMPLE_RATE

Sound = NDArray[np.float32]
"""Samples from -1 to 1 at SAMPLE_RATE."""

LENGTH_S = 4.0

LEVELS_DB = {"faint": -50.0, "": -30.0, "loud": -15.0}
"""Root mean square against full scale, by name."""


def white(seconds: float, seed: int = 1) -> Sound:
    """Hiss, at level 1."""
    return np.random.default_rng(seed).normal(0, 1, round(seconds * SAMPLE_RATE)).astype(np.float32)


def engine(seconds: float) -> Sound:
    """A generator: harmonics of 47 Hz that shake a little, and some hiss."""
    t = np.arange(round(seconds * SAMPLE_RATE)) / SAMPLE_RATE
    phase = 2 * np.pi * 47 * (t + 0.002 * np.sin(2 * np.pi * 3 * t))
    tones = sum(np.sin(n * phase) / n for n in range(1, 30))
    return np.asarray(tones + 0.2 * white(seconds, 2), np.float32)


def wind(seconds: float) -> Sound:
    """Low rumble that swells and falls in gusts."""
    shape = np.fft.rfft(white(seconds, 3))
    hertz = np.fft.rfftfreq(round(seconds * SAMPLE_RATE), 1 / SAMPLE_RATE)
    rumble = np.fft.irfft(shape / (1 + (hertz / 150) ** 1.5))
    t = np.arange(len(rumble)) / SAMPLE_RATE
    return np.asarray(rumble * (1.2 + np.sin(2 * np.pi * 0.4 * t)), np.float32)


def at_level(sound: Sound, level_db: float) -> Sound:
    """With this root mean square against full scale, clipped at full scale."""
    loudness = float(np.sqrt(np.mean(np.square(sound))))
    return np.clip(sound * 10 ** (level_db / 20) / loudness, -1, 1).astype(np.float32)


def _of(make: Callable[[float], Sound]) -> Callable[[str], Sound]:
    return lambda level: at_level(make(LENGTH_S), LEVELS_DB[level])


KINDS: dict[str, Callable[[str], Sound]] = {
    "white": _of(white),
    "engine": _of(engine),
    "wind": _of(wind),
    "silence": lambda _: np.zeros(round(LENGTH_S * SAMPLE_RATE), np.float32),
}
"""By the first word of a fixture's name; the second names the level."""
