"""Sound for tests: speech by espeak-ng, tones and noise by numbers."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np
import soxr
from numpy.typing import NDArray

from handsfree.hear.framing import Framer
from handsfree.say.voices.pcm import SPEECH_RATE
from handsfree.say.voices.synthesis import synthesise
from handsfree.signals import SAMPLE_RATE, Frame

Sound = NDArray[np.float32]
"""Samples from -1 to 1 at SAMPLE_RATE."""

VOICE, RATE_WPM = "en", 200


@cache
def speech(text: str) -> Sound:
    """Speak one sentence, without the silence around it."""
    spoken = np.frombuffer(synthesise(text, VOICE, RATE_WPM).samples, "<i2").astype(np.float32) / 32768
    samples = soxr.resample(spoken, SPEECH_RATE, SAMPLE_RATE)
    loud = np.flatnonzero(np.abs(samples) > 0.01)
    return np.asarray(samples[loud[0] : loud[-1] + 1], np.float32)


def silence(seconds: float) -> Sound:
    """Nothing."""
    return np.zeros(round(seconds * SAMPLE_RATE), np.float32)


def tone(seconds: float, hertz: float = 440.0, rate: int = SAMPLE_RATE) -> Sound:
    """A sine at half of full scale."""
    return (0.5 * np.sin(2 * np.pi * hertz * np.arange(round(seconds * rate)) / rate)).astype(np.float32)


def noise(seconds: float, level_db: float = -30.0, seed: int = 1) -> Sound:
    """White noise, the same every time."""
    scale = 10 ** (level_db / 20)
    return np.random.default_rng(seed).normal(0, scale, round(seconds * SAMPLE_RATE)).astype(np.float32)


def frames(*sounds: Sound) -> Iterator[Frame]:
    """Cut sounds, one after the other, into frames."""
    return Framer(SAMPLE_RATE).cut(np.concatenate(sounds).reshape(-1, 1), last=True)
