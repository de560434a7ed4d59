"""Cue points of a WAV, read back by programs that know nothing of ours."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
import soundfile
from wavinfo import WavInfoReader

from handsfree.errors import SoundError
from handsfree.keep.cue_points import CuePoint, add_cue_points
from handsfree.signals import SAMPLE_RATE

POINTS = [
    CuePoint(0, "begin"),
    CuePoint(SAMPLE_RATE, "done: gloves"),
    CuePoint(SAMPLE_RATE, "unsafe"),
    CuePoint(40_000, "note: Übung, zwölf Tropfen"),
    CuePoint(3 * SAMPLE_RATE, "end"),
]


ODD = "*** 'data' chunk should be an even number of bytes in length."
"""What sndfile-info says of every such file, its own as well."""


@pytest.fixture(params=[3 * SAMPLE_RATE, 3 * SAMPLE_RATE + 1], ids=["even", "odd"])
def wav(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A WAV of one byte a sample, so that its data may have an odd length, with cue points."""
    file = tmp_path / "marks.wav"
    soundfile.write(file, np.zeros(request.param), SAMPLE_RATE, subtype="PCM_U8")
    add_cue_points(file, POINTS)
    return file


def output_of(*command: str) -> str:
    if shutil.which(command[0]) is None:
        pytest.skip(f"{command[0]} is not on this machine")
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_wavinfo_reads_them(wav: Path) -> None:
    """The library wavinfo finds each point with its sample and its name."""
    cues = WavInfoReader(str(wav), info_encoding="utf-8").cues
    labels = {label.name: label.text for label in cues.labels}

    assert [CuePoint(cue.sample_offset, labels[cue.name]) for cue in cues.cues] == POINTS
    assert {(cue.chunk_id, cue.chunk_start, cue.block_start) for cue in cues.cues} == {(b"data", 0, 0)}
    assert [cue.position for cue in cues.cues] == [point.sample for point in POINTS]


def test_sndfile_info_reads_them(wav: Path) -> None:
    """So does libsndfile's own program, which finds nothing wrong with the file."""
    told = output_of("sndfile-info", str(wav))
    samples = re.findall(r"Cue ID :\s+(\d+)\s+Pos :\s+(\d+).*Chunk : data.*Offset :\s+(\d+)", told)
    labels = re.findall(r"labl : (\d+) : (.*)", told)

    assert [(point.sample, point.label) for point in POINTS] == [
        (int(position), dict(labels)[number]) for number, position, offset in samples if position == offset
    ]
    assert {line for line in told.splitlines() if line.startswith("***")} <= {ODD}


def test_ffprobe_reads_them(wav: Path) -> None:
    """ffmpeg takes them for chapters: each begins at its time."""
    chapters = json.loads(output_of("ffprobe", "-v", "error", "-of", "json", "-show_chapters", str(wav)))

    assert [(float(one["start_time"]), one["tags"]["title"]) for one in chapters["chapters"]] == [
        (point.sample / SAMPLE_RATE, point.label) for point in POINTS
    ]


def test_sox_hears_the_same(wav: Path) -> None:
    """The sound is as long as before: sox reads it without a warning."""
    if shutil.which("soxi") is None:
        pytest.skip("sox is not on this machine")
    done = subprocess.run(["soxi", "-D", str(wav)], capture_output=True, text=True, check=True)

    assert float(done.stdout) == pytest.approx(3.0, abs=0.001)
    assert done.stderr == ""


def test_without_points_nothing_is_added(tmp_path: Path) -> None:
    """A drill without marks is a plain WAV."""
    file = tmp_path / "plain.wav"
    soundfile.write(file, np.zeros(100), SAMPLE_RATE)
    before = file.read_bytes()
    add_cue_points(file, [])

    assert file.read_bytes() == before


def test_another_file_is_left_alone(tmp_path: Path) -> None:
    """What is no WAV is refused, and not changed."""
    file = tmp_path / "other.wav"
    file.write_bytes(b"OggS" * 20)

    with pytest.raises(SoundError, match="not a WAV"):
        add_cue_points(file, POINTS)
    assert file.read_bytes() == b"OggS" * 20
