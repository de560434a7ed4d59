"""A sound card whose clock is known, on a busy machine: frames with the moments at which they arrive."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from handsfree.signals import FRAME_S, FRAME_SAMPLES, Frame, Taken

START = datetime(2031, 5, 4, 8, tzinfo=UTC)

WITHIN_S = 0.020
"""What is promised: journal and sound agree to so much, two hours on."""

SILENT = bytes(2 * FRAME_SAMPLES)

TrueTime = Callable[[float], float]
"""When so much of its sound was heard, in seconds from START."""

Delay = Callable[[random.Random], float]
"""By how many seconds a frame comes late, besides what the device says."""


class ToldClock:
    """A clock that shows what it is told to."""

    def __init__(self) -> None:
        self.at = START

    def now(self) -> datetime:
        return self.at


@dataclass(frozen=True)
class Card:
    """reported_s: what the device says of its own delay; of other delays it knows nothing."""

    true_s: TrueTime
    delay_s: Delay
    reported_s: float = 0.030
    random: random.Random = field(default_factory=lambda: random.Random(7))

    def arrivals(
        self, sound_s: float, pcm: Callable[[float], bytes] = lambda end_s: SILENT
    ) -> Iterator[tuple[Frame, datetime]]:
        """Frames as they arrive, in order, as those of a queue do. pcm: the sound of one that ends there."""
        came_s = 0.0
        for number in range(1, round(sound_s / FRAME_S) + 1):
            end_s = number * FRAME_S
            came_s = max(came_s, self.true_s(end_s) + self.reported_s + self.delay_s(self.random))
            yield Frame(pcm(end_s), end_s, Taken(late_s=self.reported_s)), self.moment(came_s)

    def heard_at(self, sound_s: float) -> datetime:
        """The truth: when so much of the sound was heard."""
        return self.moment(self.true_s(sound_s))

    @staticmethod
    def moment(true_s: float) -> datetime:
        return START + timedelta(seconds=true_s)


def drifting(ppm: float) -> TrueTime:
    """A second of sound lasts longer than one of the machine by so many millionths."""
    return lambda sound_s: sound_s * (1 + ppm * 1e-6)


def at_ease(random: random.Random) -> float:
    """A machine with little else to do."""
    return random.expovariate(1 / 0.001)


def busy(random: random.Random) -> float:
    """Five milliseconds as a rule, and one time in fifty as long as a third of a second."""
    return random.expovariate(1 / 0.005) + (random.uniform(0, 0.3) if random.random() < 0.02 else 0.0)
