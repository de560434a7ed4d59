"""Sound that is no speech, computed: the same every time for one number."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from handsfree.signals import SAMPLE_RATE
from tests.voice.noises import Sound, at_level, engine, wind

LEVELS_DB = (-45.0, -30.0, -20.0, -12.0, -25.0)
"""Root mean square against full scale, taken in turn."""

CHORDS = ((0, 4, 7), (-3, 0, 5), (-5, 0, 4), (-1, 2, 7))
"""Semitones above A of 220 Hz."""

Make = Callable[[float, np.random.Generator], Sound]
"""Takes seconds and a source of numbers; gives sound of any level."""


def _times(seconds: float) -> np.ndarray:
    return np.arange(round(seconds * SAMPLE_RATE)) / SAMPLE_RATE


def _hiss(seconds: float, random: np.random.Generator) -> Sound:
    return random.normal(0, 1, round(seconds * SAMPLE_RATE)).astype(np.float32)


def _chords(seconds: float, random: np.random.Generator) -> Sound:
    """A chord every second, plucked, each tone with its overtones."""
    t, sound = _times(seconds), np.zeros(round(seconds * SAMPLE_RATE))
    for second in range(int(seconds)):
        here = (t >= second) & (t < second + 1)
        for semitone in CHORDS[random.integers(len(CHORDS))]:
            phase = 2 * np.pi * 220 * 2 ** (semitone / 12) * t[here]
            sound[here] += sum(np.sin(n * phase) / n for n in range(1, 6)) * np.exp(-3 * (t[here] - second))
    return sound.astype(np.float32)


def _beats(seconds: float, random: np.random.Generator) -> Sound:
    """Drums: a thump on each half second, a hiss between."""
    since = _times(seconds) % 0.5
    thump = np.sin(2 * np.pi * 60 * since) * np.exp(-25 * since)
    return (thump + 0.3 * _hiss(seconds, random) * np.exp(-60 * np.abs(since - 0.25))).astype(np.float32)


def _syllables(seconds: float, random: np.random.Generator) -> Sound:
    """Harmonics that swell and fall twice a second and wander in pitch: as near to speech as no word is."""
    t = _times(seconds)
    pitch = 120 + 30 * np.sin(2 * np.pi * 0.7 * t + random.uniform(0, 6))
    phase = 2 * np.pi * np.cumsum(pitch) / SAMPLE_RATE
    voiced = sum(np.sin(n * phase) / n for n in range(1, 25))
    return (voiced * np.maximum(0, np.sin(2 * np.pi * 2 * t)) + 0.05 * _hiss(seconds, random)).astype(
        np.float32
    )


def _clicks(seconds: float, random: np.random.Generator) -> Sound:
    return (random.random(round(seconds * SAMPLE_RATE)) < 3 / SAMPLE_RATE).astype(np.float32)


def _siren(seconds: float, random: np.random.Generator) -> Sound:
    t = _times(seconds)
    pitch = 700 + 300 * np.sin(2 * np.pi * random.uniform(0.2, 2) * t)
    return np.sin(2 * np.pi * np.cumsum(pitch) / SAMPLE_RATE).astype(np.float32)


def _alarm(seconds: float, random: np.random.Generator) -> Sound:
    """A monitor: three beeps, a pause."""
    t = _times(seconds) % 2.0
    on = (t % 0.25 < 0.12) & (t < 0.75)
    return (np.sin(2 * np.pi * random.choice([440, 960, 2000]) * t) * on).astype(np.float32)


def _bytes(seconds: float, random: np.random.Generator) -> Sound:
    """Anything at all, taken for samples."""
    return (np.frombuffer(random.bytes(2 * round(seconds * SAMPLE_RATE)), "<i2") / 32768).astype(np.float32)


def _levelled(make: Make) -> Callable[[float, int], Sound]:
    return lambda seconds, number: at_level(
        make(seconds, np.random.default_rng(number)), LEVELS_DB[number % len(LEVELS_DB)]
    )


KINDS: Mapping[str, Callable[[float, int], Sound]] = {
    "silence": lambda seconds, number: np.zeros(round(seconds * SAMPLE_RATE), np.float32),
    "hiss": _levelled(_hiss),
    "engine": _levelled(lambda seconds, random: engine(seconds)),
    "wind": _levelled(lambda seconds, random: wind(seconds)),
    "chords": _levelled(_chords),
    "beats": _levelled(_beats),
    "music": _levelled(lambda seconds, random: _chords(seconds, random) + _beats(seconds, random)),
    "syllables": _levelled(_syllables),
    "clicks": _levelled(_clicks),
    "siren": _levelled(_siren),
    "alarm": _levelled(_alarm),
    "clipping": lambda seconds, number: np.clip(50 * wind(seconds), -1, 1).astype(np.float32),
    "random bytes": lambda seconds, number: _bytes(seconds, np.random.default_rng(number)),
}
"""By kind: makes so many seconds of it; another number, another piece."""
