"""Kept sound is read again: whole, in parts, for drawing; and what is wrong with it is said."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.errors import SoundError
from handsfree.keep.kept_sound import clip, write_wav
from handsfree.keep.peaks import PER_S, peaks
from handsfree.signals import SAMPLE_RATE

BEEP_S = 0.2
BEEPS = (0.5, 3.0, 7.25, 61.0, 130.5)
"""Seconds at which a beep begins, each louder than the one before, in silence."""

LENGTH_S = 140.0


def beeps() -> np.ndarray:
    sound = np.zeros(round(LENGTH_S * SAMPLE_RATE))
    for number, at_s in enumerate(BEEPS, 1):
        first, length = round(at_s * SAMPLE_RATE), round(BEEP_S * SAMPLE_RATE)
        sound[first : first + length] = (
            number * 0.15 * np.sin(np.arange(length) * 2 * np.pi * 1000 / SAMPLE_RATE)
        )
    return sound


@pytest.fixture(scope="module")
def track(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("kept") / "track.ogg"
    soundfile.write(file, beeps(), SAMPLE_RATE, format="OGG", subtype="OPUS")
    return file


def begins_s(sound: np.ndarray) -> float:
    """Where the first beep begins."""
    return float(np.argmax(np.abs(sound) > 0.05)) / SAMPLE_RATE


@pytest.mark.parametrize(
    ("from_s", "to_s", "length_s", "beep_s"),
    [
        (0.0, 2.0, 2.0, 0.5),
        (2.5, 4.0, 1.5, 0.5),
        (60.0, 62.0, 2.0, 1.0),
        (-5.0, 1.0, 1.0, 0.5),
        (130.0, 900.0, 10.0, 0.5),
    ],
)
def test_a_part_is_cut_where_it_was_asked(
    track: Path, from_s: float, to_s: float, length_s: float, beep_s: float
) -> None:
    """A part begins and ends within 5 ms of what was asked, and where the file does."""
    sound, rate = soundfile.read(io.BytesIO(clip(track, from_s, to_s)))

    assert rate == SAMPLE_RATE
    assert len(sound) / rate == pytest.approx(length_s, abs=0.001)
    assert begins_s(sound) == pytest.approx(beep_s, abs=0.005)


def test_there_is_no_part_outside(track: Path) -> None:
    """What lies before, behind, or nowhere is refused in a sentence."""
    for from_s, to_s in ((-3.0, -1.0), (150.0, 160.0), (5.0, 5.0)):
        with pytest.raises(SoundError, match="has no sound from"):
            clip(track, from_s, to_s)


def test_all_of_it_as_wav(track: Path, tmp_path: Path) -> None:
    """The WAV is as long as the track, and its beeps stand at their times."""
    frames = write_wav(track, tmp_path / "track.wav")
    sound, _ = soundfile.read(tmp_path / "track.wav")

    assert frames == len(sound) == round(LENGTH_S * SAMPLE_RATE)
    for at_s in BEEPS:
        first = round((at_s - 0.2) * SAMPLE_RATE)
        assert begins_s(sound[first:]) == pytest.approx(0.2, abs=0.005)


def test_peaks_are_where_the_sound_is(track: Path) -> None:
    """Each tenth of a second has its loudest sample, in whichever part of the file it was decoded."""
    length_s, loudest = peaks(track)

    assert (length_s, len(loudest)) == (LENGTH_S, LENGTH_S * PER_S)
    for number, at_s in enumerate(BEEPS, 1):
        assert loudest[round(at_s * PER_S)] == pytest.approx(number * 0.15, abs=0.1)
    quiet = [level for at, level in enumerate(loudest) if all(abs(at / PER_S - at_s) > 0.4 for at_s in BEEPS)]
    assert max(quiet) < 0.01


def cut(held: bytes) -> bytes:
    return held[: len(held) // 2]


def zeroed(held: bytes) -> bytes:
    """As after a power cut on some file systems: the length is there, the last pages are not."""
    return held[:-5000] + bytes(5000)


def garbled(held: bytes) -> bytes:
    middle = len(held) // 2
    return held[:middle] + os.urandom(3000) + held[middle + 3000 :]


@pytest.mark.parametrize("spoil", [cut, zeroed, garbled])
def test_of_a_damaged_file_the_rest_is_heard(track: Path, tmp_path: Path, spoil) -> None:
    """Cut short, with zeros at its end, garbled in the middle: the beginning is read as it was."""
    file = tmp_path / "spoilt.ogg"
    file.write_bytes(spoil(track.read_bytes()))
    sound, _ = soundfile.read(io.BytesIO(clip(file, 2.5, 4.0)))
    length_s, loudest = peaks(file)

    assert begins_s(sound) == pytest.approx(0.5, abs=0.005)
    assert write_wav(file, tmp_path / "spoilt.wav") > 30 * SAMPLE_RATE
    assert 30 < length_s <= LENGTH_S
    assert loudest[30] == pytest.approx(0.3, abs=0.06)


def header_only(held: bytes) -> bytes:
    """Killed within the first second."""
    return held[: held.index(b"OggS", held.index(b"OpusTags"))]


FOREIGN = [
    pytest.param(lambda held: b"", "is empty", id="empty"),
    pytest.param(header_only, "holds no sound", id="header alone"),
    pytest.param(lambda held: held[:10], "holds no sound", id="ten bytes"),
    pytest.param(lambda held: b"no sound at all\n" * 99, "holds no sound", id="text"),
    pytest.param(lambda held: bytes(9999), "holds no sound", id="zeros"),
    pytest.param(None, "There is no sound file", id="missing"),
]


@pytest.mark.parametrize(("spoil", "says"), FOREIGN)
def test_what_is_no_sound_is_one_sentence(track: Path, tmp_path: Path, spoil, says: str) -> None:
    """Each names the file and what to do."""
    file = tmp_path / "foreign.ogg"
    if spoil is not None:
        file.write_bytes(spoil(track.read_bytes()))

    for use in (lambda: clip(file, 0, 1), lambda: write_wav(file, tmp_path / "out.wav"), lambda: peaks(file)):
        with pytest.raises(SoundError, match=says) as refused:
            use()
        assert "foreign.ogg" in str(refused.value)
        assert refused.value.next_step


def test_a_part_is_played_by_others(track: Path, tmp_path: Path) -> None:
    """ffmpeg decodes a part to its length."""
    if shutil.which("ffprobe") is None:
        pytest.skip("ffprobe is not on this machine")
    (tmp_path / "clip.ogg").write_bytes(clip(track, 2.5, 4.0))
    probe = ["ffprobe", "-v", "error", "-show_entries", "format=duration", "-of", "csv=p=0"]
    done = subprocess.run([*probe, str(tmp_path / "clip.ogg")], capture_output=True, text=True, check=True)

    assert float(done.stdout) == pytest.approx(1.5, abs=0.02)
