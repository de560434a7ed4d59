"""A door with a recorded person behind it, who answers each question with a clip: for the demo and for tests."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from handsfree.clock import SoundClock
from handsfree.hear.gate import GatedEar
from handsfree.hear.recording import Recording
from handsfree.ports import Ear, Sentences
from handsfree.signals import FRAME_S, FRAME_SAMPLES, Closed, Frame, Gate, Lapsed, Utterance

ENDINGS = (".ogg", ".flac", ".wav")

MOST_ASKED = 4
"""A question that is asked more often in a row is one that the person cannot answer."""

THINKS_S = 0.4
"""Silence before an answer."""

_SILENCE = bytes(2 * FRAME_SAMPLES)


class ClipDoor:
    """Door over a folder of clips named by the question that they answer.

    `rate.ogg` answers the question `rate` the first time, `rate.2.ogg` the second time if it is there, and so on;
    else the first again. With no question open there is silence. Time passes with the sound.
    """

    def __init__(self, clips: Path, ear: Ear, clock: SoundClock) -> None:
        self._clips, self._clock = clips, clock
        self._ear = GatedEar(ear)
        self._asks, self._open = "", False
        self._answered: Counter[str] = Counter()
        self._last, self._in_a_row = "", 0
        self._answer: Iterator[Frame] | None = None
        self._heard_s = 0.0

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on, and which question is open."""
        self._ear.open(sentences, gate)
        self._asks, self._open = asks, gate is Gate.OPEN

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Answer the open question, or let time pass until `until`. Raises SoundError for a broken clip."""
        while until is None or self._clock.now() < until:
            if self._answer is None and self._asks and self._open:
                if (cannot := self._begin()) is not None:
                    return cannot
            elif until is None and self._answer is None:
                return Closed("No question is open.")
            utterance = self._ear.hear(self._frame())
            if utterance is not None:
                return utterance
        return Lapsed()
