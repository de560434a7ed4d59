"""Which moment each second of sound is: frames counted against the machine's clock as they arrive."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from queue import Empty, SimpleQueue

from handsfree.hear.drift import Drift, Line
from handsfree.ports import Clock
from handsfree.signals import FRAME_S, Frame
from handsfree.timeline import Anchor

WINDOW_S = 1.0
"""Of each second of sound, the frame that came the least late counts."""

SETTLED_S = 5.0
"""By then some frame came without delay; until then the first one has to do."""

OFF_S = 0.002
"""A line that moved by more than this is told by a new anchor."""

STEP_S = 0.015
"""No clock drifts so far off its line at once: sound was lost, or the machine slept. A new line is begun."""

STEP_WINDOWS = 30
"""So many windows in a row must be late by a step: a machine that is busy is late for a while, too."""


class Synchroniser:
    """Takes frames as they arrive and finds anchors: few, as long as both clocks keep their pace.

    Seconds of sound count from the start of the first frame that it takes. Frames may be taken in another
    thread than the one that asks for anchors.
    """

    def __init__(self, clock: Clock) -> None:
        self._clock, self._begun_at = clock, clock.now()
        self._begins_s: float | None = None
        self._heard_s = self._window_s = 0.0
        self._least: tuple[float, float] | None = None
        self._drift, self._told = Drift(), Line(0.0, 0.0)
        self._on_line_s = 0.0
        self._off: list[tuple[float, float]] = []
        self._anchors: SimpleQueue[Anchor] = SimpleQueue()

    def take(self, frame: Frame) -> None:
        """Take the next frame, at the moment when it arrives."""
        since_s = (self._clock.now() - self._begun_at).total_seconds() - frame.taken.late_s
        if self._begins_s is None:
            self._begins_s = frame.end_s - FRAME_S
            self._tell(Line(0.0, since_s - FRAME_S), 0.0)
        self._heard_s = frame.end_s - self._begins_s
        late_s = since_s - self._heard_s
        if self._least is None or late_s < self._least[1]:
            self._least = (self._heard_s, late_s)
        if self._heard_s - self._window_s >= WINDOW_S:
            self._close_window(*self._least)
            self._window_s, self._least = self._heard_s, None

    def anchors(self) -> Iterator[Anchor]:
        """Those that were found and not asked for yet; the first is rough, and corrected in five seconds."""
        while True:
            try:
                yield self._anchors.get_nowait()
            except Empty:
                return

    def end(self) -> None:
        """No frame comes any more: the last anchor is found."""
        if self._on_line_s:
            self._tell(self._drift.line(), self._heard_s)

    def _close_window(self, sound_s: float, late_s: float) -> None:
        if not self._is_on_line(sound_s, late_s):
            too_early = late_s < self._drift.line().at(sound_s)
            self._off = [*([] if too_early else self._off), (sound_s, late_s)]
            if too_early or len(self._off) == STEP_WINDOWS:
                self._step()
            return
        self._off.clear()
        self._drift.add(sound_s, late_s)
        line = self._drift.line()
        if self._on_line_s < SETTLED_S <= sound_s:
            self._tell(line, 0.0)
        elif abs(line.at(sound_s) - self._told.at(sound_s)) > OFF_S and sound_s > SETTLED_S:
            self._tell(line, sound_s)
        self._on_line_s = sound_s

    def _is_on_line(self, sound_s: float, late_s: float) -> bool:
        return self._on_line_s < SETTLED_S or abs(late_s - self._drift.line().at(sound_s)) < STEP_S

    def _step(self) -> None:
        """Up to the last piece on the line it holds, and from the first that was off it another."""
        before, stepped_s = self._drift.line(), self._off[0][0]
        self._tell(before, self._on_line_s)
        self._drift = Drift(before.slope)
        for sound_s, late_s in self._off:
            self._drift.add(sound_s, late_s)
        self._off.clear()
        self._tell(self._drift.line(), stepped_s)

    def _tell(self, line: Line, sound_s: float) -> None:
        self._told = line
        heard_at = self._begun_at + timedelta(seconds=sound_s + line.at(sound_s))
        self._anchors.put(Anchor(sound_s, heard_at, line.slope * 1e6))
