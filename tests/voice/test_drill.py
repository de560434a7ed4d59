"""A drill of five minutes from sound to the record: every mark is found at its moment, none is invented."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from handsfree.keep.journal import SqlJournal
from tests.voice.drill_track import Breath, Mark, heard, laid, meant
from tests.voice.hearing import read
from tests.voice.make_fixtures import FIXTURES, PLAN, drill_clip
from tests.voice.sound_shape import Sound

LENGTH_S = 300.0


def breaths() -> Iterator[Breath]:
    """The drill of plan.toml."""
    for row in tomllib.loads(PLAN.read_text("utf-8"))["drill"]:
        mark = Mark(row["words"], *(meant(row["mark"]) if "mark" in row else ()))
        yield Breath(row["pause_s"], row["voice"], (mark,), row.get("further", False))


def sound_of(words: str, voice: str) -> Sound:
    return read(FIXTURES / drill_clip(words, voice))


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
@pytest.mark.timeout(400)
def test_every_mark_is_found_at_its_moment(tmp_path: Path) -> None:
    """Twelve marks in four voices; what a trainee says between is none of them; all sound is kept."""
    track, expected = laid(breaths(), sound_of, LENGTH_S)
    outcome = heard(track, expected, tmp_path, "vosk", sound=True)

    assert ([], [], 12) == (outcome.missing, outcome.invented, len(outcome.found))
    assert max(abs(late_s) for late_s in outcome.late_s) < 0.3
    assert ["Ben"] == [run.trainee for run in outcome.session.runs]
    (session,) = SqlJournal(tmp_path).sessions()
    assert (tmp_path / "sound" / session / "soundtrack-1.ogg").stat().st_size > 100_000
