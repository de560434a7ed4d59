"""Exported sound has the marks of its session at the times at which they are heard."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest
import soundfile
from wavinfo import WavInfoReader

from handsfree.care import events as e
from handsfree.export_sound import export_sound
from handsfree.show.chapters import chapters
from handsfree.show.debrief.marks import Kind, Mark, State, Step, Who
from handsfree.show.debrief.run import Run, Sort
from handsfree.signals import SAMPLE_RATE
from handsfree.timeline import Anchor
from handsfree.webvtt import Cue, read_webvtt
from tests.sound_card import START

FILE = "sound/one/soundtrack-1.ogg"
RUN = Run(
    "one",
    Sort.DRILL,
    "Site check",
    START,
    600.0,
    marks=(
        Mark(300.0, Kind.UNSAFE, Who.INSTRUCTOR, step="Needle away"),
        Mark(900.0, Kind.NOTE, Who.INSTRUCTOR, text="after the sound"),
    ),
    steps=(Step("gloves", "Gloves on", State.DONE, 100.0), Step("tie", "Tie", State.MISSED)),
)
RECORDS = [
    e.Recorded(START, event)
    for event in (
        e.SoundStarted(FILE, START),
        e.SoundSynchronised(FILE, Anchor(400.0, START + timedelta(seconds=404), 10_000.0)),
    )
]
"""A card that is off by a hundredth: moments are not where the clock alone would put them."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / FILE).parent.mkdir(parents=True)
    soundfile.write(tmp_path / FILE, np.zeros(400 * SAMPLE_RATE), SAMPLE_RATE, format="OGG", subtype="OPUS")
    return tmp_path


def test_cue_points_and_chapters(folder: Path, tmp_path: Path) -> None:
    """An independent reader finds each mark at its sample; what lies outside the sound is left out of the
    WAV, and stands in the chapters."""
    assert export_sound(RECORDS, [RUN], folder, tmp_path) == ()
    cues = WavInfoReader(str(tmp_path / "soundtrack-1.wav"), info_encoding="utf-8").cues
    labels = {label.name: label.text for label in cues.labels}
    chapters = read_webvtt((tmp_path / "chapters.vtt").read_text("utf-8"), "chapters.vtt")

    assert [(cue.sample_offset / SAMPLE_RATE, labels[cue.name]) for cue in cues.cues] == [
        (pytest.approx(100 / 1.01, abs=1e-4), "done: Gloves on"),
        (pytest.approx(300 / 1.01, abs=1e-4), "unsafe: Needle away"),
    ]
    assert [(cue.start_ms, cue.end_ms, cue.text) for cue in chapters] == [
        (100_000, 300_000, "done: Gloves on"),
        (300_000, 900_000, "unsafe: Needle away"),
        (900_000, 900_001, "note: after the sound"),
    ]


def test_sound_that_is_missing_is_told(tmp_path: Path) -> None:
    """The chapters are written all the same."""
    (told,) = export_sound(RECORDS, [RUN], tmp_path, tmp_path)

    assert "There is no sound file" in told
    assert (tmp_path / "chapters.vtt").exists()


def test_a_drill_without_a_run_has_its_sound(folder: Path, tmp_path: Path) -> None:
    """No chapter, no cue point, and all of the sound."""
    assert export_sound(RECORDS, [], folder, tmp_path) == ()
    assert (tmp_path / "chapters.vtt").read_text("utf-8") == "WEBVTT\n"
    assert soundfile.info(tmp_path / "soundtrack-1.wav").duration == pytest.approx(400, abs=0.001)


def test_moments_at_one_time_share_a_chapter() -> None:
    """Each chapter ends where the next begins, none lasts no time, and no title comes twice."""
    moments = [(5.0, "b"), (1.0, "a"), (5.0, "c"), (5.0, "b"), (-1.0, "before")]

    assert list(chapters(moments, 9.0)) == [
        Cue(0, 1000, "before"),
        Cue(1000, 5000, "a"),
        Cue(5000, 9000, "b; c"),
    ]
