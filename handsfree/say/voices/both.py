"""Two voices that say the same: in print and into a file, or aloud and into a file."""

from __future__ import annotations

from handsfree.errors import PlaybackFailed
from handsfree.ports import Voice


class BothVoices:
    """Says each sentence with one voice and then with the other, even if one of them fails."""

    def __init__(self, first: Voice, second: Voice) -> None:
        self._voices = first, second

    def say(self, text: str) -> float:
        """Have both say it; returns the longer length in seconds. Raises PlaybackFailed after both tried."""
        lengths_s, failures = [0.0], []
        for voice in self._voices:
            try:
                lengths_s.append(voice.say(text))
            except PlaybackFailed as failed:
                failures.append(failed)
        if failures:
            raise failures[0]
        return max(lengths_s)

    def hush(self) -> None:
        """Fall silent with both."""
        for voice in self._voices:
            voice.hush()
