"""Recordings become frames, or are refused in one sentence."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st

from handsfree.errors import SoundError
from handsfree.hear.framing import Framer
from handsfree.hear.recording import Recording
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE
from handsfree.testing.source_contract import check_frames
from tests.hear.sound import tone

KINDS = [
    ("wav", 16_000, 1, "PCM_16"),
    ("wav", 8_000, 2, "PCM_U8"),
    ("wav", 44_100, 2, "FLOAT"),
    ("wav", 96_000, 1, "PCM_24"),
    ("flac", 22_050, 1, "PCM_16"),
    ("ogg", 48_000, 2, "OPUS"),
    ("ogg", 44_100, 1, "VORBIS"),
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


def test_sixteen_bit_sound_is_not_touched(tmp_path: Path) -> None:
    """A recording that has the right form already reaches the ear bit by bit."""
    samples = np.arange(-1000, 1000, dtype="<i2") * 30
    soundfile.write(tmp_path / "ramp.wav", samples, SAMPLE_RATE, subtype="PCM_16")

    pcm = b"".join(frame.pcm for frame in Recording(tmp_path / "ramp.wav").frames())

    assert samples.tobytes() == pcm[: 2 * len(samples)]


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
    pytest.param(lambda at: empty(at / "a.wav"), "is empty", id="empty"),
    pytest.param(lambda at: soundless(at / "a.wav"), "holds no sound", id="soundless"),
    pytest.param(lambda at: folder(at / "a.wav"), "is a folder", id="folder"),
    pytest.param(lambda at: at / "none.wav", "no file", id="missing"),
    pytest.param(lambda at: cut(written(at / "a.wav"), 0.6), "cut short", id="half a WAV"),
    pytest.param(lambda at: cut(written(at / "a.wav"), 0.0005), "sound", id="part of a header"),
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


def test_header_of_a_pipe_is_believed_to_the_end(tmp_path: Path) -> None:
    """A WAV written to a pipe has no length in its header, and is whole all the same."""
    path = written(tmp_path / "pipe.wav")
    header = bytearray(path.read_bytes())
    at = header.find(b"data") + 4
    header[at : at + 4] = b"\xff" * 4
    path.write_bytes(header)

    check_frames(Recording(path), at_least=31)


@given(st.lists(st.integers(0, 3000), max_size=12), st.sampled_from([8_000, 16_000, 44_100]))
def test_size_of_the_pieces_does_not_matter(pieces: list[int], rate: int) -> None:
    """The same sound gives the same frames, however it is chopped on its way in."""
    sound = tone(sum(pieces) / rate + 0.001, rate=rate).reshape(-1, 1)
    whole, chopped = Framer(rate), Framer(rate)
    ends = np.cumsum(pieces)

    got = [frame for part in np.split(sound, ends) for frame in chopped.cut(part)]
    got += chopped.cut(sound[:0], last=True)

    assert list(whole.cut(sound, last=True)) == got


@pytest.mark.parametrize("rate", [0, 1, 3_999, 10_000_000, float("nan")])
def test_absurd_rate_is_refused(rate: float) -> None:
    """No sound is spoken at such a rate."""
    with pytest.raises(SoundError, match="samples a second"):
        Framer(rate)
