"""The sound of a session for other programs: WAV files whose cue points are its marks, and chapters."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from pathlib import Path, PurePosixPath

from handsfree.care import events as e
from handsfree.care.sound_time import Track, tracks
from handsfree.errors import SoundError
from handsfree.keep.cue_points import CuePoint, add_cue_points
from handsfree.keep.kept_sound import write_wav
from handsfree.say.wording_keys import called
from handsfree.show.chapters import Moment, chapters
from handsfree.show.debrief.run import Run
from handsfree.signals import SAMPLE_RATE
from handsfree.webvtt import written_webvtt
from handsfree.whole_file import whole


def export_sound(
    records: Sequence[e.Recorded], runs: Sequence[Run], folder: Path, out: Path
) -> tuple[str, ...]:
    """Write chapters.vtt, and for each file of the whole session's sound a WAV of its name.

    folder: the sessions folder. Returns what can't be read, in a sentence each. Raises OSError.
    """
    timed = sorted((run.began + timedelta(seconds=at_s), text) for run in runs for at_s, text in moments(run))
    began = min((run.began for run in runs), default=records[0].at)
    length_s = max(((run.began - began).total_seconds() + run.length_s for run in runs), default=0.0)
    cues = chapters([((at - began).total_seconds(), text) for at, text in timed], length_s)
    with whole(out / "chapters.vtt") as unfinished:
        unfinished.write_text(written_webvtt(cues), "utf-8")
    faults = []
    for track in tracks(records):
        try:
            _write_track(track, timed, folder, out)
        except SoundError as fault:
            faults.append(str(fault))
    return tuple(faults)


def moments(run: Run) -> Iterator[Moment]:
    """The steps that were done and all marks of a run; seconds from its start."""
    for step in run.every_step:
        if step.at_s is not None:
            yield step.at_s, f"{called(step.state.value)}: {step.title}"
    for mark in run.marks:
        yield mark.at_s, f"{called(mark.kind.value)}: {mark.step or mark.text}".rstrip(": ")


def _write_track(track: Track, timed: Iterable[tuple[datetime, str]], folder: Path, out: Path) -> None:
    """One file as WAV, with the moments that are in it. Raises SoundError, OSError."""
    wav = (out / PurePosixPath(track.file).name).with_suffix(".wav")
    points = [CuePoint(round(track.sound_s(at) * SAMPLE_RATE), text) for at, text in timed]
    with whole(wav) as unfinished:
        samples = write_wav(folder / track.file, unfinished)
        add_cue_points(unfinished, [point for point in points if 0 <= point.sample < samples])
