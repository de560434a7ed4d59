"""A door for typed lines: one line is one utterance."""

from __future__ import annotations

import threading
from datetime import datetime
from queue import Empty, SimpleQueue
from typing import IO

from handsfree.hear.sound_door import seconds_left
from handsfree.hear.typed_words import typed_words
from handsfree.ports import Clock, Sentences
from handsfree.signals import Alternative, Closed, Gate, Lapsed, Utterance
from handsfree.words import worded


class TypedDoor:
    """Door over a stream of bytes or text. A typed line is heard whatever the gate: typing makes no sound."""

    def __init__(self, stream: IO[bytes] | IO[str], clock: Clock) -> None:
        self._clock = clock
        self._lines: SimpleQueue[tuple[str, ...] | None] = SimpleQueue()
        threading.Thread(target=self._read, args=(stream,), name="typed lines", daemon=True).start()

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Nothing to prepare: the grammar judges what was typed."""

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Wait for the next line, until the clock reads `until`."""
        try:
            words = self._lines.get(timeout=seconds_left(self._clock, until))
        except Empty:
            return Lapsed()
        if words is None:
            self._lines.put(None)
            return Closed(worded("The input has ended."))
        return Utterance((Alternative(words),))

    def _read(self, stream: IO[bytes] | IO[str]) -> None:
        for line in stream:
            text = line if isinstance(line, str) else line.decode("utf-8", "replace")
            if words := typed_words(text):
                self._lines.put(words)
        self._lines.put(None)
