"""An ear that reads words written into frames, and the sources that write them."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.ports import Sentences
from handsfree.signals import FRAME_S, FRAME_SAMPLES, Alternative, Frame, Utterance

SILENCE = bytes(2 * FRAME_SAMPLES)


def written(*lines: str) -> Iterator[Frame]:
    """Yield one frame for each line, with its words in place of sound; silence where it is empty."""
    for number, line in enumerate(lines, start=1):
        yield Frame(line.encode().ljust(len(SILENCE), b"\0"), number * FRAME_S)


class FakeEar:
    """Ear for `written` frames: neighbouring frames with words are one utterance, ended by a silent one.

    unknown: words that it says it does not know.
    """

    def __init__(self, *unknown: str) -> None:
        self._unknown = unknown
        self._heard: list[Frame] = []
        self._listening = False

    @property
    def stirred(self) -> bool:
        """Whether it is in the midst of an utterance."""
        return bool(self._heard)

    def knows(self, word: str) -> bool:
        """Tell whether the ear can hear this word."""
        return word not in self._unknown

    def listen(self, sentences: Sentences) -> None:
        """Drop what was half heard; every sentence is as good as another."""
        del sentences
        self._listening = True
        self._heard.clear()

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        if not self._listening:
            return None
        if frame is not None and frame.pcm != SILENCE:
            self._heard.append(frame)
            return None
        return self._close(frame) if self._heard else None

    def _close(self, last: Frame | None) -> Utterance:
        heard, self._heard = self._heard, []
        pcm = b"".join(frame.pcm for frame in heard)
        words = tuple(word for frame in heard for word in frame.pcm.rstrip(b"\0").decode().split())
        decided_s = heard[-1].end_s if last is None else last.end_s
        return Utterance((Alternative(words),), heard[0].end_s - FRAME_S, heard[-1].end_s, decided_s, pcm)


class FakeSource:
    """Source of `written` frames."""

    def __init__(self, *lines: str) -> None:
        self._lines = lines

    def frames(self) -> Iterator[Frame]:
        """Yield the frames, then end."""
        return written(*self._lines)
