"""The tape of a session: all its sound on the way from the door into a file, and what is recorded of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import assert_never

from handsfree.care import events as e
from handsfree.hear.synchroniser import Synchroniser
from handsfree.hear.tapped import Tapped
from handsfree.keep.soundtrack import Soundtrack
from handsfree.ports import Clock, Source
from handsfree.say.wording_machine import sound_kept
from handsfree.signals import Frame, Noticed
from handsfree.timeline import Silence


@dataclass(slots=True)
class _Reel:
    """One file that is being written, and its time."""

    track: Soundtrack
    time: Synchroniser
    started: bool = field(default=False)


class Tape:
    """Runs from the beginning of a session to its end; sound that comes before is let go.

    Sound comes in the thread of the source; all else is asked in the session's. waits: as of Soundtrack.
    """

    def __init__(self, *, waits: bool = False) -> None:
        self._waits = waits
        self._reel: _Reel | None = None

    def tap(self, source: Source) -> Source:
        """The source to put before the door in place of this one."""
        return Tapped(source, self._take)

    def begin(self, folder: Path, session: str, clock: Clock) -> str:
        """Keep all sound from now on; returns what is to be said about it. Raises StoreFailed."""
        self._reel = _Reel(Soundtrack(folder, session, waits=self._waits), Synchroniser(clock))
        return sound_kept(folder / "sound" / session, session)

    def news(self) -> tuple[e.Event, ...]:
        """What is to be recorded about the sound since it was asked last."""
        return tuple(_news(self._reel)) if self._reel else ()

    def end(self) -> tuple[e.Event, ...]:
        """Write all that came, close the file, and tell the rest."""
        reel, self._reel = self._reel, None
        if reel is None:
            return ()
        reel.time.end()
        reel.track.close()
        return (*_news(reel), e.SoundStopped(reel.track.place, reel.track.written_s))

    def _take(self, frame: Frame) -> None:
        reel = self._reel
        if reel is not None:
            reel.track.take(frame)
            reel.time.take(frame)


def _news(reel: _Reel) -> Iterator[e.Event]:
    for anchor in reel.time.anchors():
        if reel.started:
            yield e.SoundSynchronised(reel.track.place, anchor)
        else:
            reel.started = True
            yield e.SoundStarted(reel.track.place, anchor.heard_at)
    for found in reel.track.news():
        match found:
            case Silence():
                yield e.SoundMissed(reel.track.place, found)
            case Noticed(trouble):
                yield e.SoundTroubled(trouble)
            case _:
                assert_never(found)
