"""Makes the debrief page of kept sessions: from the journal, and the sound beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from handsfree.care import events as e
from handsfree.errors import HandsfreeError, SoundError
from handsfree.keep.peaks import peaks
from handsfree.ports import Journal
from handsfree.record import Kept, load
from handsfree.show.debrief.drilled import drilled_runs
from handsfree.show.debrief.guided import guided_runs
from handsfree.show.debrief.page import page
from handsfree.show.debrief.practised import practised_run
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.sounds import lost, sounds
from handsfree.show.debrief.tracks import Recording
from handsfree.show.debrief.trend import same
from handsfree.whole_file import whole
from handsfree.words import worded

Reader = Callable[[str, Any, Sequence[e.Recorded]], tuple[Run, ...]]
"""Makes the runs of a session from its id, how it ended, and its events: one for each trainee
or line. The sound that was written all along is added to each."""

READERS: Mapping[str, Reader] = MappingProxyType(
    {
        "guide": guided_runs,
        "practice": lambda *kept: (practised_run(*kept),),
        "drill": drilled_runs,
    }
)
"""By kind of session, a name of `CONDUCTS`."""


def runs_from(kept: Kept) -> Iterator[Run]:
    """The runs of one kept session with its sound, each with a notice of what is lost of it."""
    damage = tuple(str(one) for one in kept.damage)
    for run in READERS[kept.started.kind](kept.record.session, kept.session, kept.records):
        yield replace(
            run,
            sounds=(*run.sounds, *sounds(kept.records, run.began)),
            lost=tuple(lost(kept.records, run.began)),
            notices=(*run.notices, *damage),
        )


def earlier_runs(runs: Sequence[Run], journal: Journal, emergencies: str) -> Iterator[Run]:
    """What the same trainees ran before, of all that is kept; sessions that can't be read are left out."""
    began = {same(run): run.began for run in sorted(runs, key=lambda run: run.began) if run.trainee}
    shown = {run.session for run in runs}
    others = [session for session in journal.sessions() if session not in shown] if began else []
    for session in others:
        with suppress(HandsfreeError):
            theirs = [run for run in runs_from(load(journal, session, emergencies)) if same(run) in began]
            yield from (run for run in theirs if run.began < began[same(run)])


def recordings_of(runs: Iterable[Run], folder: Path) -> dict[str, Recording]:
    """The sound of runs by its path in the sessions folder, as far as it can be read."""
    files = dict.fromkeys(sound.file for run in runs for sound in run.sounds)
    found = {}
    for file in files:
        with suppress(SoundError, OSError):
            found[file] = _recording(place_of(folder, file))
    return found


def write_page(runs: Sequence[Run], folder: Path, out: Path, earlier: Sequence[Run] = ()) -> None:
    """Write the page of some runs, all or none of it. earlier: for the trend alone. Raises OSError."""
    pieces = page(runs, recordings_of(runs, folder), earlier)
    with whole(out) as unfinished, unfinished.open("w", encoding="utf-8", newline="\n") as file:
        file.writelines(pieces)


def place_of(folder: Path, file: str) -> Path:
    """Where a file of the sessions folder is. Raises SoundError for a path that leads out of it."""
    try:
        place = (folder / file).resolve()
        if place.is_relative_to(folder.resolve()):
            return place
    except RuntimeError:  # links that lead in a circle
        pass
    raise SoundError(worded("{file} does not lie in the sessions folder.", file=file))


def _recording(place: Path) -> Recording:
    """Raises SoundError, OSError."""
    length_s, loudest = peaks(place)
    return Recording(place.read_bytes(), length_s, loudest)
