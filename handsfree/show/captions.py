"""Captions: what both sides say, each sentence with its time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from handsfree.say.length import spoken_length_s
from handsfree.signals import Chime, Manner
from handsfree.webvtt import Cue

USER, PROGRAM = "User", "Handsfree"

CHIME_MS = 500
"""A short sound is shown so long, or nobody could read it."""


class Captions:
    """Voice that writes cues, one sentence after the other. passed_s: seconds since the start."""

    def __init__(self, passed_s: Callable[[], float]) -> None:
        self._passed_s = passed_s
        self._cues: list[Cue] = []
        self._busy_ms = 0

    def cues(self) -> tuple[Cue, ...]:
        """Everything that was said, in order of the time at which it began."""
        return tuple(sorted(self._cues, key=lambda cue: cue.start_ms))

    def say(self, text: str) -> float:
        """Write down a sentence of the program, after the one before; returns its seconds."""
        length_s = spoken_length_s(text)
        self._write(text, _ms(length_s))
        return length_s

    def chime(self, chime: Chime) -> float:
        """Write down a short sound of the program, in brackets; returns for how long, in seconds."""
        self._write(f"[{chime.value}]", CHIME_MS)
        return CHIME_MS / 1000

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Do nothing: a beat has no words."""

    def speak_as(self, manner: Manner) -> None:
        """Do nothing: captions take as long in any manner."""

    def hush(self) -> None:
        """Break off the sentence that is being said; drop what was not said yet."""
        now_ms = _ms(self._passed_s())
        self._cues = [
            replace(cue, end_ms=min(cue.end_ms, now_ms)) if cue.speaker == PROGRAM else cue
            for cue in self._cues
            if cue.speaker != PROGRAM or cue.start_ms < now_ms
        ]
        self._busy_ms = min(self._busy_ms, now_ms)

    def _write(self, text: str, length_ms: int) -> None:
        start_ms = max(self._busy_ms, _ms(self._passed_s()))
        self._busy_ms = start_ms + length_ms
        self._cues.append(Cue(start_ms, self._busy_ms, text, PROGRAM))

    def spoke(self, start_s: float, end_s: float, text: str) -> None:
        """Write down a sentence of the user."""
        self._cues.append(Cue(_ms(start_s), _ms(end_s), text, USER))


def _ms(seconds: float) -> int:
    return round(seconds * 1000)
