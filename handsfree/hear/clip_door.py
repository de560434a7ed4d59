"""A door with a recorded person behind it, who answers each question with a clip: for the demo and for
tests."""

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
from handsfree.words import worded

ENDINGS = (".ogg", ".flac", ".wav")

MOST_ASKED = 4
"""A question that is asked more often in a row is one that the person cannot answer."""

BEFORE_S, AFTER_S = 0.4, 3.0
"""Silence around a clip. An utterance that is not decided by its end went unheard, and the clip is played
again."""

_SILENCE = bytes(2 * FRAME_SAMPLES)


class ClipDoor:
    """Door over a folder of clips named by the question that they answer.

    `rate.ogg` answers the question `rate` the first time, `rate.2.ogg` the second time if it is there, and
    so on; else the first again. With no question open there is silence. Time passes with the sound.
    """

    def __init__(self, clips: Path, ear: Ear, clock: SoundClock) -> None:
        self._clips, self._clock = clips, clock
        self._ear = GatedEar(ear)
        self._asks, self._may_speak = "", False
        self._asked: Counter[str] = Counter()
        self._last, self._in_a_row = "", 0
        self._answer: Iterator[bytes] | None = None
        self._heard_s = 0.0

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on, and which question is open."""
        self._ear.open(sentences, gate)
        if asks != self._asks:
            self._answer = None
        self._asks, self._may_speak = asks, gate is Gate.OPEN

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Answer the open question, or let time pass until `until`. Raises SoundError for a broken clip."""
        while until is None or self._clock.now() < until:
            if self._answer is None and self._asks and self._may_speak:
                self._answer = self._begin()
                if self._answer is None:
                    return self._why_not()
            if self._answer is None and until is None:
                return Closed(worded("No question is open, and nothing is due."))
            utterance = self._ear.hear(self._frame())
            if utterance is not None:
                self._answer = None
                return utterance
        return Lapsed()

    def _begin(self) -> Iterator[bytes] | None:
        self._in_a_row = self._in_a_row + 1 if self._asks == self._last else 1
        self._last = self._asks
        self._asked[self._asks] += 1
        clip = self._clip()
        return None if clip is None or self._in_a_row > MOST_ASKED else _spoken(clip)

    def _clip(self) -> Path | None:
        names = (f"{self._asks}.{self._asked[self._asks]}", self._asks)
        clips = (self._clips / f"{name}{ending}" for name in names for ending in ENDINGS)
        return next((clip for clip in clips if clip.is_file()), None)

    def _why_not(self) -> Closed:
        if self._clip() is None:
            return Closed(worded("There is no clip for the question {question}.", question=self._asks))
        return Closed(
            worded(
                "The question {question} was asked more than {number} times in a row.",
                question=self._asks,
                number=MOST_ASKED,
            )
        )

    def _frame(self) -> Frame:
        pcm = next(self._answer, None) if self._answer is not None else _SILENCE
        if pcm is None:
            self._answer, pcm = None, _SILENCE
        self._clock.advance(FRAME_S)
        self._heard_s += FRAME_S
        return Frame(pcm, self._heard_s)


def _spoken(clip: Path) -> Iterator[bytes]:
    yield from [_SILENCE] * round(BEFORE_S / FRAME_S)
    for frame in Recording(clip).frames():
        yield frame.pcm
    yield from [_SILENCE] * round(AFTER_S / FRAME_S)
