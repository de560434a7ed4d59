"""Recordings become frames, or are refused in one sentence."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from handsfree.errors import SoundError
from handsfree.hear.recording import Recording
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE
from handsfree.testing.source_contract import check_frames
from tests.hear.sound import noise, tone


def frames_of(path: Path) -> NDArray[np.float64]:
    """All samples that an ear gets of a recording, from -1 to 1."""
    pcm = b"".join(frame.pcm for frame in Recording(path).frames())
    return np.frombuffer(pcm, "<i2").astype(float) / 32768


KINDS = [
    ("wav", 16_000, 1, "PCM_16"),
    ("wav", 8_000, 2, "PCM_U8"),
    ("wav", 44_100, 2, "FLOAT"),
    ("wav", 96_000, 1, "PCM_24"),
    ("flac", 22_050, 1, "PCM_16"),
    ("ogg", 48_000, 2, "OPUS"),
    ("ogg", 44_100, 1, "VORBIS"),
    ("wav", 11_025, 1, "PCM_32"),
    ("wav", 192_000, 6, "PCM_24"),
]


def written(path: Path, rate: int = 16_000, channels: int = 1, subtype: str = "PCM_16") -> Path:
    sound = np.repeat(tone(1.0, rate=rate).reshape(-1, 1), channels, axis=1)
    soundfile.write(path, sound, rate, subtype=subtype)
    return path


@pytest.mark.parametrize(("ending", "rate", "channels", "subtype"), KINDS)
def test_any_kind_is_heard(tmp_path: Path, ending: str, rate: int, channels: int, subtype: str) -> None:
    """Whatever the format, rate and channels, one second is 32 frames, with the tone in them."""
    recording = Recording(written(tmp_path / f"tone.{ending}", rate, channels, subtype))

    check_frames(recording, at_least=32)
    pcm = np.frombuffer(b"".join(frame.pcm for frame in recording.frames()), "<i2")

    assert len(pcm) == -(-SAMPLE_RATE // FRAME_SAMPLES) * FRAME_SAMPLES
    spectrum = np.abs(np.fft.rfft(pcm[: 15 * SAMPLE_RATE // 16].astype(float)))
    assert abs(440 - float(np.argmax(spectrum)) * 16 / 15) < 2
    assert 0.45 < float(np.quantile(np.abs(pcm), 0.99)) / 32768 < 0.55


FORMATS = ["PCM_U8", "PCM_16", "PCM_24", "PCM_32", "FLOAT", "DOUBLE", "ULAW", "ALAW"]


@pytest.mark.parametrize("subtype", FORMATS)
def test_every_sample_format_is_the_same_sound(tmp_path: Path, subtype: str) -> None:
    """Eight bits or sixty-four: the ear gets the same samples, but for what the format cannot hold."""
    exact = frames_of(written(tmp_path / "exact.wav", subtype="DOUBLE"))

    assert np.abs(frames_of(written(tmp_path / "a.wav", subtype=subtype)) - exact).max() < 0.02


def test_a_format_that_cannot_seek_is_heard(tmp_path: Path) -> None:
    """GSM 06.10 inside a WAV (libsndfile, WAV and GSM610): one second is heard as long as it is."""
    soundfile.write(tmp_path / "a.wav", tone(1.0, rate=8000), 8000, subtype="GSM610")

    assert len(frames_of(tmp_path / "a.wav")) == pytest.approx(SAMPLE_RATE, abs=2 * FRAME_SAMPLES)


def test_quiet_sound_in_fine_steps_is_brought_up(tmp_path: Path) -> None:
    """What sixteen bits could not hold is not lost in a recording that holds more."""
    sound = np.concatenate((noise(1.0, -110.0), 0.0015 * tone(1.0)))
    soundfile.write(tmp_path / "quiet.wav", sound, SAMPLE_RATE, subtype="PCM_24")

    spoken = frames_of(tmp_path / "quiet.wav")[SAMPLE_RATE + 2048 : 2 * SAMPLE_RATE - 2048]

    assert 0.02 < float(np.max(np.abs(spoken))) < 0.03
    assert len(np.unique(spoken)) > 200


def test_not_a_number_is_silence(tmp_path: Path) -> None:
    """A broken sample does not spread."""
    soundfile.write(tmp_path / "nan.wav", np.full(512, np.nan, np.float32), SAMPLE_RATE, subtype="FLOAT")

    assert [bytes(1024)] == [frame.pcm for frame in Recording(tmp_path / "nan.wav").frames()]


def cut(path: Path, share: float) -> Path:
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * share)])
    return path


def text(path: Path) -> Path:
    path.write_text("This is no sound.")
    return path


def empty(path: Path) -> Path:
    path.touch()
    return path


def soundless(path: Path) -> Path:
    soundfile.write(path, np.zeros(0), SAMPLE_RATE)
    return path


def folder(path: Path) -> Path:
    path.mkdir()
    return path


REFUSED = [
    pytest.param(lambda at: text(at / "a.wav"), "not a sound file", id="text"),
    pytest.param(lambda at: text(at / "a.raw"), "not a sound file", id="raw"),
    pytest.param(lambda at: written(at / "a.wav", 1000), "1000 samples a second", id="rate"),
    pytest.param(lambda at: empty(at / "a.wav"), "is empty", id="empty"),
    pytest.param(lambda at: soundless(at / "a.wav"), "holds no sound", id="soundless"),
    pytest.param(lambda at: folder(at / "a.wav"), "is a folder", id="folder"),
    pytest.param(lambda at: at / "none.wav", "no file", id="missing"),
    pytest.param(lambda at: cut(written(at / "a.wav"), 0.6), "cut short", id="half a WAV"),
    pytest.param(lambda at: cut(written(at / "a.wav"), 0.0005), "not a sound file", id="part of a header"),
    pytest.param(lambda at: cut(written(at / "a.flac"), 0.6), "cut short", id="half a FLAC"),
    pytest.param(
        lambda at: cut(written(at / "a.ogg", 48_000, 1, "OPUS"), 0.6), "cut short", id="half an Opus"
    ),
    pytest.param(
        lambda at: cut(written(at / "a.ogg", subtype="VORBIS"), 0.6), "sound|short", id="half a Vorbis"
    ),
]


@pytest.mark.parametrize(("make", "says"), REFUSED)
def test_what_is_not_whole_sound_is_refused(tmp_path: Path, make, says: str) -> None:
    """Refused when it is opened, in one line that names the file and the next step."""
    with pytest.raises(SoundError, match=says) as refused:
        Recording(make(tmp_path))

    assert str(tmp_path) in str(refused.value)
    assert refused.value.next_step
    assert "\n" not in str(refused.value)


def test_sound_that_a_kill_cut_short_can_be_heard_as_far_as_it_goes(tmp_path: Path) -> None:
    """The sound of a session that was cut off is heard again: all of it that was written."""
    sound = np.tile(tone(1.0), 10)
    soundfile.write(tmp_path / "a.ogg", sound, SAMPLE_RATE, subtype="OPUS")
    cut(tmp_path / "a.ogg", 0.6)

    check_frames(Recording(tmp_path / "a.ogg", whole=False), at_least=round(5 * SAMPLE_RATE / FRAME_SAMPLES))


def test_header_of_a_pipe_is_believed_to_the_end(tmp_path: Path) -> None:
    """A WAV written to a pipe has no length in its header, and is whole all the same."""
    path = written(tmp_path / "pipe.wav")
    header = bytearray(path.read_bytes())
    at = header.find(b"data") + 4
    header[at : at + 4] = b"\xff" * 4
    path.write_bytes(header)

    check_frames(Recording(path), at_least=31)


BEGINNINGS = [
    b"",
    b"RIFF\x24\x00\x00\x00WAVEfmt ",
    b"fLaC\x00\x00\x00\x22",
    b"OggS\x00\x02",
    b"FORM\x00\x00\x01\x00AIFF",
]


@given(st.sampled_from(BEGINNINGS), st.binary(max_size=2000))
def test_random_bytes_are_a_recording_or_refused(tmp_path_factory, beginning: bytes, rest: bytes) -> None:
    """Whatever stands in a file, it is sound, or it is refused in one line."""
    path = tmp_path_factory.mktemp("bytes") / "any.wav"
    path.write_bytes(beginning + rest)

    try:
        frames = list(Recording(path).frames())
    except SoundError as refused:
        assert refused.next_step
    else:
        assert {2 * FRAME_SAMPLES} >= {len(frame.pcm) for frame in frames}
