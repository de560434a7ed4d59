"""Where in the sound of a session a moment is, and when a second of sound was heard. Pure.

The clock of a sound card is not the machine's: at 100 millionths, two hours differ by 0.72 s. Between two
anchors time runs evenly; after the last one it runs at the pace that was measured there.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.timeline import Anchor, Silence


@dataclass(frozen=True, slots=True)
class Track:
    """One file of sound. file: its path in the sessions folder. anchors: at least one, in order.

    length_s: None where the file was not ended, because the session was cut off.
    """

    file: str
    anchors: tuple[Anchor, ...]
    silences: tuple[Silence, ...] = ()
    length_s: float | None = None

    @property
    def began(self) -> datetime:
        """When its first sample was heard."""
        return self.heard_at(0.0)

    def sound_s(self, at: datetime) -> float:
        """Seconds of sound from the file's start to a moment; below zero for one before it."""
        before, pace = self._around(bisect_right(self.anchors, at, key=lambda anchor: anchor.heard_at))
        return before.sound_s + (at - before.heard_at).total_seconds() / pace

    def heard_at(self, sound_s: float) -> datetime:
        """When so much of the sound had been heard."""
        before, pace = self._around(bisect_right(self.anchors, sound_s, key=lambda anchor: anchor.sound_s))
        return before.heard_at + timedelta(seconds=(sound_s - before.sound_s) * pace)

    def _around(self, number: int) -> tuple[Anchor, float]:
        """The last of so many anchors, and how long a second of sound lasts from there on."""
        before = self.anchors[max(0, number - 1)]
        if 0 < number < len(self.anchors):
            after = self.anchors[number]
            passed_s = (after.heard_at - before.heard_at).total_seconds()
            return before, passed_s / (after.sound_s - before.sound_s)
        return before, 1 + before.drift_ppm * 1e-6


def tracks(records: Iterable[e.Recorded]) -> tuple[Track, ...]:
    """The sound files of a session, in the order in which they were begun."""
    found: dict[str, Track] = {}
    for record in records:
        match record.event:
            case e.SoundStarted(file, began):
                found[file] = Track(file, (Anchor(0.0, began),))
            case e.SoundSynchronised(file, anchor) if file in found:
                found[file] = _anchored(found[file], anchor)
            case e.SoundMissed(file, silence) if file in found:
                found[file] = replace(found[file], silences=(*found[file].silences, silence))
            case e.SoundStopped(file, length_s) if file in found:
                found[file] = replace(found[file], length_s=length_s)
            case _:
                pass
    return tuple(found.values())


def _anchored(track: Track, anchor: Anchor) -> Track:
    """An anchor takes the place of those that stand where it does, or that it contradicts."""
    kept = tuple(
        one for one in track.anchors if one.sound_s < anchor.sound_s and one.heard_at < anchor.heard_at
    )
    return replace(track, anchors=(*kept, anchor))
