"""Sound on the time line of a run: which file is heard when, and how loud it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor

from handsfree.show.debrief.run import Run


@dataclass(frozen=True, slots=True)
class Recording:
    """A sound file that was read: Ogg Opus, as it is, and the loudest sample of each equal part, 0 to 1."""

    ogg: bytes
    length_s: float
    peaks: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Track:
    """A recording on a run's time line. number: of its file on the page. at_s: of its first sample."""

    number: int
    at_s: float
    recording: Recording

    @property
    def until_s(self) -> float:
        """When its last sample is heard."""
        return self.at_s + self.recording.length_s

    def peak(self, from_s: float, to_s: float) -> float:
        """The loudest of what is heard between two moments of the run; 0 where nothing is."""
        peaks, length_s = self.recording.peaks, self.recording.length_s
        if not peaks or length_s <= 0:
            return 0.0
        per_s = len(peaks) / length_s
        first = max(floor((from_s - self.at_s) * per_s), 0)
        last = max(ceil((to_s - self.at_s) * per_s), 0)
        return max(peaks[first:last], default=0.0)


def tracks_of(run: Run, recordings: Mapping[str, Recording]) -> tuple[Track, ...]:
    """The run's sound as far as it was found, in order of time."""
    numbers = {file: number for number, file in enumerate(recordings)}
    found = (
        Track(
            numbers[sound.file],
            sound.at_s - (recordings[sound.file].length_s if sound.ends else 0),
            recordings[sound.file],
        )
        for sound in run.sounds
        if sound.file in recordings
    )
    return tuple(sorted(found, key=lambda track: track.at_s))


def loudness(tracks: Sequence[Track], length_s: float, parts: int) -> Iterator[float]:
    """The peaks of equal parts of a run, for its waveform."""
    for part in range(parts):
        from_s, to_s = length_s * part / parts, length_s * (part + 1) / parts
        heard = (track for track in tracks if track.at_s < to_s and track.until_s > from_s)
        yield max((track.peak(from_s, to_s) for track in heard), default=0.0)
