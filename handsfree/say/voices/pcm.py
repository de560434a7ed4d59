"""Synthesised sound, on its way from the synthesiser to a loudspeaker or a file."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

import numpy as np

SPEECH_RATE = 22_050
"""Samples a second of all synthesised sound: what pyttsx3 2.99 writes with espeak."""

SAMPLE_BYTES = 2
_FULL_SCALE = 32_767


@dataclass(frozen=True, slots=True)
class Pcm:
    """Sound in one channel at SPEECH_RATE. samples: 16-bit, little-endian."""

    samples: bytes

    @property
    def length_s(self) -> float:
        """How long the sound lasts."""
        return len(self.samples) / SAMPLE_BYTES / SPEECH_RATE


def silence(seconds: float) -> Pcm:
    """Sound that is not heard."""
    return Pcm(bytes(SAMPLE_BYTES * round(seconds * SPEECH_RATE)))


def amplified(samples: bytes, gain: float) -> bytes:
    """The samples so many times as strong; peaks become flatter, and are never cut off."""
    if gain == 1.0:
        return samples
    sound = np.frombuffer(samples, "<i2") / _FULL_SCALE * gain
    return (np.tanh(sound) * _FULL_SCALE if gain > 1 else sound * _FULL_SCALE).astype("<i2").tobytes()


class Output(Protocol):
    """Where synthesised sound goes."""

    def play(self, pcm: Pcm) -> None:
        """Put the sound behind what is still to be played; returns at once. Raises PlaybackFailed."""

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick once a drop from now on, or no more. Raises PlaybackFailed."""

    def amplify(self, gain: float) -> None:
        """Make all sound from now on so many times as strong as it is given."""

    def hush(self) -> None:
        """Drop what was not played yet."""
