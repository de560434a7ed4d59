"""Sound on the time line of a run: which file is heard when, and how loud it is."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor

from handsfree.show.debrief.run import Run, Sound


@dataclass(frozen=True, slots=True)
class Recording:
    """A sound file that was read: Ogg Opus, as it is, and the loudest sample of each equal part, 0 to 1."""

    ogg: bytes
    length_s: float
    peaks: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Track:
    """A recording on a run's time line. number: of its file on the page. anchors: as in Sound, never none."""

    number: int
    anchors: tuple[tuple[float, float], ...]
    recording: Recording

    @property
    def at_s(self) -> float:
        """When its first sample was heard."""
        return along(self.anchors, 0.0)

    @property
    def until_s(self) -> float:
        """When its last sample was heard."""
        return along(self.anchors, self.recording.length_s)

    def peak(self, from_s: float, to_s: float) -> float:
        """The loudest of what is heard between two moments of the run; 0 where nothing is."""
        peaks, length_s = self.recording.peaks, self.recording.length_s
        if not peaks or length_s <= 0:
            return 0.0
        per_s = len(peaks) / length_s
        back = [(at_s, sound_s) for sound_s, at_s in self.anchors]
        first = max(floor(along(back, from_s) * per_s), 0)
        last = max(ceil(along(back, to_s) * per_s), 0)
        return max(peaks[first:last], default=0.0)


def along(pairs: Sequence[tuple[float, float]], x: float) -> float:
    """The other number of a pair, between the given ones and beyond them; one pair goes on with slope 1."""
    if len(pairs) == 1:
        return pairs[0][1] + x - pairs[0][0]
    after = min(max(bisect_right(pairs, x, key=lambda pair: pair[0]), 1), len(pairs) - 1)
    (x0, y0), (x1, y1) = pairs[after - 1 : after + 1]
    return y0 + (x - x0) * (y1 - y0) / (x1 - x0)


def tracks_of(run: Run, recordings: Mapping[str, Recording]) -> tuple[Track, ...]:
    """The run's sound as far as it was found, in order of time; files that it has no part of are left out."""
    numbers = {file: number for number, file in enumerate(recordings)}
    found = [
        Track(numbers[sound.file], _anchors(sound, recordings[sound.file]), recordings[sound.file])
        for sound in run.sounds
        if sound.file in recordings
    ]
    heard = (track for track in found if track.at_s <= run.length_s and track.until_s >= 0)
    return tuple(sorted(heard, key=lambda track: track.at_s))


def _anchors(sound: Sound, recording: Recording) -> tuple[tuple[float, float], ...]:
    return sound.anchors if sound.ends_s is None else ((recording.length_s, sound.ends_s),)


def loudness(tracks: Sequence[Track], length_s: float, parts: int) -> Iterator[float]:
    """The peaks of equal parts of a run, for its waveform."""
    for part in range(parts):
        from_s, to_s = length_s * part / parts, length_s * (part + 1) / parts
        heard = (track for track in tracks if track.at_s < to_s and track.until_s > from_s)
        yield max((track.peak(from_s, to_s) for track in heard), default=0.0)
