"""A dialogue in print, both sides with their times; the program's side takes as long as it would aloud."""

from __future__ import annotations

import textwrap
from datetime import datetime
from fractions import Fraction
from typing import TextIO

from handsfree.ports import Clock
from handsfree.say.length import spoken_length_s
from handsfree.signals import Chime, Manner

_WIDTH = 100
_INDENT = " " * 18


class Dialogue:
    """Voice that prints, and a listener that prints what was heard."""

    def __init__(self, stream: TextIO, clock: Clock) -> None:
        self._stream, self._clock, self._began = stream, clock, clock.now()

    def say(self, text: str) -> float:
        """Print a sentence of the program; returns how long it would last, in seconds."""
        self._line(self._clock.now(), "handsfree", text)
        return spoken_length_s(text)

    def chime(self, chime: Chime) -> float:
        """Print a short sound of the program, which takes no time to speak of."""
        self._line(self._clock.now(), "handsfree", f"[{chime.value}]")
        return 0.0

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Do nothing: a beat cannot be printed."""

    def speak_as(self, manner: Manner) -> None:
        """Do nothing: print has no sound."""

    def hush(self) -> None:
        """Do nothing: what was printed stays."""

    def overheard(self, at: datetime, text: str) -> None:
        """Print what the user said, as it was understood."""
        self._line(at, "you", text)

    def _line(self, at: datetime, who: str, text: str) -> None:
        minutes, seconds = divmod(int((at - self._began).total_seconds()), 60)
        head = f"{minutes:02}:{seconds:02}  {who:<9}  "
        body = textwrap.fill(text, _WIDTH, initial_indent=head, subsequent_indent=_INDENT)
        print(body, file=self._stream, flush=True)
