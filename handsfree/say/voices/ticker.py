"""The drop beat: one tick for each drop that should fall, on an exact grid of samples."""

from __future__ import annotations

from array import array
from fractions import Fraction
from math import exp, pi, sin

from handsfree.say.voices.pcm import SAMPLE_BYTES

TICK_S = 0.03
"""Length of a tick: over before the next drop at any rate that can be counted."""

_TONES = ((1_150.0, 0.7), (2_760.0, 0.3))
"""Hertz and share of the two partials: like a fingernail on wood, and like no device's alarm."""

_FADE_S, _RISE_S = 0.006, 0.001
_LOUDNESS = 0.25
_FULL_SCALE = 32_767


class Ticker:
    """Sound of a beat, made piece by piece as a device asks for it.

    sample_rate: samples a second. Ticks fall on the sample that is nearest to their time, however long it
    runs: their times are fractions, so that nothing adds up.
    """

    def __init__(self, sample_rate: int) -> None:
        self._sample_rate = sample_rate
        self._tick = _tick(sample_rate)
        self._interval: Fraction | None = None
        self._next = Fraction(0)
        self._begun: int | None = None
        self._now = 0

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Beat at this rate from now on, or no more. Raises ValueError for a rate that is not above zero.

        A beat that runs keeps its last tick: the next one follows it by the new interval, or at once.
        """
        if drops_per_min is None:
            self._interval = None
            return
        if drops_per_min <= 0:
            raise ValueError("A beat has a rate above zero.")
        interval = Fraction(60 * self._sample_rate) / drops_per_min
        now = Fraction(self._now)
        self._next = now if self._interval is None else max(self._next - self._interval + interval, now)
        self._interval = interval

    def render(self, samples: int) -> bytes:
        """The next `samples` of sound, 16-bit little-endian, one channel."""
        sound = array("h", bytes(SAMPLE_BYTES * samples))
        end = self._now + samples
        if self._begun is not None:
            self._lay(sound, self._begun)
        while self._interval is not None and (at := round(self._next)) < end:
            self._begun = at
            self._lay(sound, at)
            self._next += self._interval
        self._now = end
        return sound.tobytes()

    def _lay(self, sound: array[int], at: int) -> None:
        """Put into a piece of sound, which begins now, what falls into it of the tick that begins at `at`."""
        skipped = max(0, self._now - at)
        place = max(0, at - self._now)
        part = self._tick[skipped : skipped + len(sound) - place]
        sound[place : place + len(part)] = part


def _tick(sample_rate: int) -> array[int]:
    times = (n / sample_rate for n in range(round(TICK_S * sample_rate)))
    return array("h", (round(_FULL_SCALE * _LOUDNESS * _shape(t)) for t in times))


def _shape(t: float) -> float:
    tone = sum(share * sin(2 * pi * hertz * t) for hertz, share in _TONES)
    return tone * min(1.0, t / _RISE_S) * exp(-t / _FADE_S)
