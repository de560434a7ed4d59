"""Doors for sound: a recording, whose sound is the clock, and a microphone, which waits for nobody."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from queue import Empty, SimpleQueue

from handsfree.clock import SoundClock
from handsfree.hear.gate import GatedEar
from handsfree.hear.watch import SoundWatch
from handsfree.ports import Clock, Ear, Sentences, Source
from handsfree.signals import FRAME_S, Closed, Frame, Gate, Lapsed, Noticed, Stirred, Utterance
from handsfree.words import worded

ENDED = Closed(worded("The sound has ended."))

CLOSING_S = 1.0
"""A device that works gives a frame within this, and its thread sees that it is over."""


class SoundDoor:
    """Door over a recording: time passes with its sound, and as fast as the ear can hear."""

    def __init__(self, source: Source, ear: Ear, clock: SoundClock) -> None:
        self._frames: Iterator[Frame] = iter(source.frames())
        self._ear = GatedEar(ear)
        self._clock = clock

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on. `asks` is for those who answer by themselves."""
        del asks
        self._ear.open(sentences, gate)

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Hear on to the next utterance, or until the clock reads `until`. Raises SoundError."""
        while until is None or self._clock.now() < until:
            frame = next(self._frames, None)
            if frame is not None:
                self._clock.advance(FRAME_S)
            utterance = self._ear.hear(frame)
            if utterance is not None:
                return utterance
            if frame is None:
                return ENDED
        return Lapsed()


class LiveDoor:
    """Door over a microphone: a thread takes the frames to a queue, so that a wait ends when it should.

    Watches over the sound while the ear is open.
    """

    def __init__(self, source: Source, ear: Ear, clock: Clock) -> None:
        self._ear = GatedEar(ear)
        self._watch, self._gate, self._stirred = SoundWatch(), Gate.DEAF, False
        self._came_at = clock.now()
        self._clock = clock
        self._queue: SimpleQueue[tuple[Frame, datetime] | Exception | None] = SimpleQueue()
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._take, args=(source,), name="microphone", daemon=True)
        self._thread.start()

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on. `asks` is for those who answer by themselves."""
        del asks
        self._gate = gate
        self._ear.open(sentences, gate)

    def next(self, until: datetime | None) -> Utterance | Stirred | Noticed | Lapsed | Closed:
        """Wait for the next utterance, its beginning or trouble, until the clock reads `until`.

        Raises SoundError.
        """
        while True:
            if noticed := self._watch.noticed():
                return noticed
            if self._ear.stirred is not self._stirred:
                self._stirred = self._ear.stirred
                return Stirred(self._stirred)
            try:
                came = self._queue.get(timeout=seconds_left(self._clock, until))
            except Empty:
                return Lapsed()
            if not isinstance(came, tuple):
                self._queue.put(came)  # an end stays the end
            if isinstance(came, Exception):
                raise came
            if came is not None:
                self._came_at = came[1] - timedelta(seconds=came[0].taken.late_s)
            if utterance := self._heard(came and came[0]):
                return replace(utterance, late_s=(self._clock.now() - self._came_at).total_seconds())
            if came is None:
                return ENDED

    def close(self) -> None:
        """Let go of the microphone; a device that hangs is not waited for."""
        self._over.set()
        self._thread.join(timeout=CLOSING_S)

    def _heard(self, frame: Frame | None) -> Utterance | None:
        utterance = self._ear.hear(frame)
        if frame is not None and self._gate is Gate.OPEN:
            self._watch.take(frame)
        if utterance is not None:
            self._watch.heard(utterance)
        return utterance

    def _take(self, source: Source) -> None:
        try:
            for frame in source.frames():
                if self._over.is_set():
                    return
                self._queue.put((frame, self._clock.now()))
        except Exception as failed:  # a thread that dies must not leave the loop waiting
            self._queue.put(failed)
        else:
            self._queue.put(None)


def seconds_left(clock: Clock, until: datetime | None) -> float | None:
    """Seconds from now to `until`, none below zero; None for ever."""
    return None if until is None else max(0.0, (until - clock.now()).total_seconds())
