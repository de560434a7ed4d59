"""The printed voice: one line for each sentence, at once."""

from __future__ import annotations

from fractions import Fraction
from typing import TextIO

from handsfree.errors import PlaybackFailed
from handsfree.say.wording_keys import called
from handsfree.signals import Chime, Manner
from handsfree.words import worded


class PrintedVoice:
    """Says sentences in print."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def say(self, text: str) -> float:
        """Print one sentence, which takes no time: 0 seconds. Raises PlaybackFailed."""
        line = " ".join(text.split())
        encoding = self._stream.encoding or "utf-8"
        try:
            print(line.encode(encoding, "replace").decode(encoding), file=self._stream, flush=True)
        except (OSError, ValueError) as broken:
            raise PlaybackFailed(
                worded("Nothing can be printed ({why}).", why=broken), worded("Keep the output open.")
            ) from broken
        return 0.0

    def chime(self, chime: Chime) -> float:
        """Print its name in brackets, so that a reader knows of it too. Raises PlaybackFailed."""
        return self.say(f"[{called(chime.value)}]")

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Do nothing: a beat cannot be printed."""

    def speak_as(self, manner: Manner) -> None:
        """Do nothing: print has no sound."""

    def hush(self) -> None:
        """Do nothing: what was printed stays."""
