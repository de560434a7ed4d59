"""Hears one recording with one ear, as the program would."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray

from handsfree.clock import SoundClock
from handsfree.hear.framing import Framer
from handsfree.hear.recording import Recording
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.readings import by_reading
from handsfree.ports import Ear, Sentences, Source
from handsfree.said import judged
from handsfree.signals import SAMPLE_RATE, Ambiguous, Frame, Gate, Heard, Outcome, Utterance

Sound = NDArray[np.float32]
"""Samples from -1 to 1 at SAMPLE_RATE."""


@dataclass(frozen=True, slots=True)
class Samples:
    """Source over sound in memory."""

    sound: Sound

    def frames(self) -> Iterator[Frame]:
        """Yield its frames."""
        return Framer(SAMPLE_RATE).cut(self.sound.reshape(-1, 1), last=True)


@dataclass(frozen=True, slots=True)
class Said:
    """One utterance and what the grammar makes of it."""

    outcome: Outcome
    utterance: Utterance

    @property
    def wait_s(self) -> float:
        """Seconds of sound from the last sound of speech to the decision."""
        return self.utterance.decided_s - self.utterance.end_s


def read(file: Path) -> Sound:
    """The samples of a fixture."""
    return np.asarray(soundfile.read(file, dtype="float32")[0], np.float32)


def hear(ear: Ear, grammar: Sentences, sound: Path | Sound) -> tuple[Said, ...]:
    """Every utterance of a recording, each judged."""
    return hear_source(ear, grammar, Recording(sound) if isinstance(sound, Path) else Samples(sound))


def hear_source(ear: Ear, grammar: Sentences, source: Source) -> tuple[Said, ...]:
    """Every utterance of a source, each judged."""
    door = SoundDoor(source, ear, SoundClock(datetime(2031, 5, 4, tzinfo=UTC)))
    door.open(grammar, Gate.OPEN, "")
    said = []
    while isinstance(utterance := door.next(None), Utterance):
        said.append(Said(judged(grammar, utterance), utterance))
    return tuple(said)


def verdict(written: Sentences, words: str, said: tuple[Said, ...]) -> str:
    """right, wrong (another meaning was heard, or one too many), asked, or refused.

    written: the grammar in common spelling. words: what was spoken, empty for what is no sentence of it.
    """
    meant = {by_reading(node) for node in written.match(tuple(words.split()))}
    heard = [one.outcome for one in said if isinstance(one.outcome, Heard)]
    if any(by_reading(one.node) not in meant for one in heard) or len(heard) > 1:
        return "wrong"
    if heard:
        return "right"
    return "asked" if any(isinstance(one.outcome, Ambiguous) for one in said) else "refused"
