"""Two voices that say the same: in print and into a file, or aloud and into a file."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from handsfree.errors import PlaybackFailed
from handsfree.ports import Voice
from handsfree.signals import Chime, Manner

T = TypeVar("T")


class BothVoices:
    """Says each sentence with one voice and then with the other, even if one of them fails."""

    def __init__(self, first: Voice, second: Voice) -> None:
        self._voices = first, second

    def say(self, text: str) -> float:
        """Have both say it; returns the longer length in seconds. Raises PlaybackFailed after both tried."""
        return max(self._each(lambda voice: voice.say(text)))

    def chime(self, chime: Chime) -> float:
        """Have both sound it; returns the longer length. Raises PlaybackFailed after both tried."""
        return max(self._each(lambda voice: voice.chime(chime)))

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Have both tick, or no more. Raises PlaybackFailed after both tried."""
        self._each(lambda voice: voice.beat(drops_per_min))

    def speak_as(self, manner: Manner) -> None:
        """Have both sound so."""
        for voice in self._voices:
            voice.speak_as(manner)

    def hush(self) -> None:
        """Fall silent with both."""
        for voice in self._voices:
            voice.hush()

    def _each(self, act: Callable[[Voice], T]) -> list[T]:
        done, failures = [], []
        for voice in self._voices:
            try:
                done.append(act(voice))
            except PlaybackFailed as failed:
                failures.append(failed)
        if failures:
            raise failures[0]
        return done
