"""Short sounds in place of words: computed once, of our own making.

Each is one or two soft knocks, as on wood: a low tone with overtones that are out of tune, gone within a
fifth of a second. Alarms of medical devices are bursts of three pulses and more, with harmonics that are in
tune (IEC 60601-1-8, from memory): these cannot be taken for one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

import numpy as np

from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.signals import Chime

LEVEL = 0.3
"""Of full scale: heard beside speech, and not over it."""

OVERTONES = ((1.0, 1.0), (2.76, 0.4), (5.4, 0.15))
"""Of a struck bar, free at both ends: frequency as a multiple of the lowest (from memory), and strength."""


@dataclass(frozen=True, slots=True)
class Knock:
    """One stroke. at_s: after the beginning. slide: how far its tone has moved at its end, as a factor."""

    hertz: float
    at_s: float = 0.0
    lasts_s: float = 0.12
    slide: float = 1.0


KNOCKS: Mapping[Chime, tuple[Knock, ...]] = MappingProxyType(
    {
        Chime.TAKEN: (Knock(520),),
        Chime.REFUSED: (Knock(300), Knock(210, at_s=0.16)),
        Chime.DUE: (Knock(390, lasts_s=0.35), Knock(585, at_s=0.3, lasts_s=0.35)),
        Chime.LISTENING: (Knock(430, lasts_s=0.2, slide=1.6),),
    }
)
"""Taken is one stroke; refused falls; due rises in two slow ones; listening slides up."""


@cache
def sounded(chime: Chime) -> Pcm:
    """The sound itself."""
    knocks = KNOCKS[chime]
    whole = np.zeros(round(max(one.at_s + one.lasts_s for one in knocks) * SPEECH_RATE))
    for knock in knocks:
        begin = round(knock.at_s * SPEECH_RATE)
        samples = _struck(knock)[: len(whole) - begin]
        whole[begin : begin + len(samples)] += samples
    loudest = float(np.max(np.abs(whole)))
    return Pcm((whole / loudest * LEVEL * 32767).astype("<i2").tobytes())


def _struck(knock: Knock) -> np.typing.NDArray[np.float64]:
    """One stroke: a quick onset without a click, then it dies away."""
    t = np.arange(round(knock.lasts_s * SPEECH_RATE)) / SPEECH_RATE
    gone = t / knock.lasts_s
    turns = knock.hertz * t * (1 + (knock.slide - 1) * gone / 2)
    tones = sum(
        strength * np.sin(2 * np.pi * times * turns) * np.exp(-5 * gone * times**0.5)
        for times, strength in OVERTONES
    )
    shaped: np.typing.NDArray[np.float64] = tones * np.minimum(1, t / 0.004) * (1 - gone)
    return shaped
