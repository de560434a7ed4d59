"""The sound of a session on the time line of a run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from handsfree.care import events as e
from handsfree.care.sound_time import Track, tracks
from handsfree.say.wording_written import DISK_TOO_SLOW, LOST_ON_THE_WAY
from handsfree.show.debrief.run import Lost, Sound
from handsfree.timeline import LostBy

_WHY = {LostBy.DEVICE: LOST_ON_THE_WAY, LostBy.STORE: DISK_TOO_SLOW}


def sounds(records: Iterable[e.Recorded], began: datetime) -> Iterator[Sound]:
    """The files that were written all along, whoever ran then. began: of the run."""
    for track in tracks(records):
        moments = (*(anchor.sound_s for anchor in track.anchors), track.length_s or 1.0)
        # An anchor at the very end and the length were summed up apart: they may differ in their last digits.
        known = {round(sound_s, 3) for sound_s in moments}
        yield Sound(track.file, tuple((sound_s, _at_s(track, sound_s, began)) for sound_s in sorted(known)))


def lost(records: Iterable[e.Recorded], began: datetime) -> Iterator[Lost]:
    """The silences in place of sound that was not kept."""
    for track in tracks(records):
        for silence in track.silences:
            at_s = _at_s(track, silence.from_s, began)
            yield Lost(at_s, silence.lasted_s, _WHY[silence.lost_by])


def _at_s(track: Track, sound_s: float, began: datetime) -> float:
    return (track.heard_at(sound_s) - began).total_seconds()
