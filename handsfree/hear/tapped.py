"""A tap between a source and its door: the sound goes on as it came, and somebody else gets it too."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from handsfree.ports import Source
from handsfree.signals import Frame


class Tapped:
    """Source over another one. hand: gets each frame after the door has taken it, so that by then the clock
    of a recording shows its end. It is called in the door's thread, and must neither block nor raise."""

    def __init__(self, source: Source, hand: Callable[[Frame], None]) -> None:
        self._source, self._hand = source, hand

    def frames(self) -> Iterator[Frame]:
        """Yield the source's frames. Raises what the source raises."""
        for frame in self._source.frames():
            yield frame
            self._hand(frame)
