"""What a practice run is held under: chosen before it begins, and kept with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from random import Random

from handsfree.care.assessment import Fault


class Level(Enum):
    """How much the trainee is told."""

    GUIDED = "guided"
    """Each step is said before it is done."""

    PROMPTED = "prompted"
    """A cue comes by itself where nothing is said for long."""

    SILENT = "silent"
    """Cues on request alone."""


class Telling(Enum):
    """When a critical error is told."""

    AT_ONCE = "at once"
    AT_THE_END = "at the end"


@dataclass(frozen=True, slots=True)
class Terms:
    """trainee: the name that was given, empty for none. faults: names of those that will be met."""

    trainee: str = ""
    level: Level = Level.SILENT
    telling: Telling = Telling.AT_ONCE
    faults: tuple[str, ...] = ()


def drawn(faults: Sequence[Fault], most: int, seed: int) -> tuple[str, ...]:
    """So many of the faults that have a step to come after, by a seed: the same seed draws the same."""
    names = [fault.name for fault in faults if fault.when]
    return tuple(Random(seed).sample(names, min(most, len(names))))
