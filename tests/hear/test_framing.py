"""Frames: of one size, whatever arrives, however it is chopped."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from handsfree.errors import SoundError
from handsfree.hear.framing import Framer, Samples
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE, Frame
from tests.hear.sound import noise, silence, tone

RATES = st.sampled_from([8_000, 11_025, 16_000, 22_050, 44_100, 48_000, 96_000, 192_000])
ANY_FLOAT = st.floats(width=32, allow_nan=True, allow_infinity=True)


def column(sound: Samples) -> Samples:
    return sound.reshape(-1, 1)


def framed(sound: Samples, rate: float = SAMPLE_RATE) -> list[Frame]:
    """Frames of sound that arrives at once."""
    return list(Framer(rate, sound.shape[1]).cut(sound, last=True))


def levels_db(frames: list[Frame]) -> list[float]:
    """Level of each frame, in dB of full scale."""
    pcm = np.array([np.frombuffer(frame.pcm, "<i2") for frame in frames], float) / 32768
    return list(10 * np.log10(np.mean(pcm * pcm, axis=1) + 1e-12))


@given(st.lists(st.integers(0, 3000), max_size=12), RATES, st.integers(1, 3))
def test_size_of_the_pieces_does_not_matter(pieces: list[int], rate: int, channels: int) -> None:
    """The same sound gives the same frames, however it is chopped on its way in."""
    seconds = sum(pieces) / rate + 0.001
    sound = np.stack([0.1 * n * tone(seconds, 200.0 * (n + 1), rate) for n in range(channels)], axis=1)
    chopped = Framer(rate, channels)

    got = [frame for part in np.split(sound, np.cumsum(pieces)) for frame in chopped.cut(part)]
    got += chopped.cut(sound[:0], last=True)

    assert framed(sound, rate) == got


@given(st.integers(0, 20_000), RATES)
def test_as_long_as_the_sound(length: int, rate: int) -> None:
    """Frames are as many as the sound fills, the last one filled up; their time is their number."""
    frames = framed(np.zeros((length, 1), np.float32), rate)

    assert abs(len(frames) - length / rate / FRAME_S) < 1 + 1 / FRAME_SAMPLES
    assert {2 * FRAME_SAMPLES} >= {len(frame.pcm) for frame in frames}
    assert [pytest.approx((n + 1) * FRAME_S) for n in range(len(frames))] == [one.end_s for one in frames]


@given(arrays(np.float32, st.tuples(st.integers(0, 1500), st.integers(1, 3)), elements=ANY_FLOAT), RATES)
def test_any_floats_are_sound(sound: Samples, rate: int) -> None:
    """No number, none at all, infinite or huge: nothing is raised, and the same comes out again."""
    frames = framed(sound, rate)

    assert frames == framed(sound, rate)
    assert all(math.isfinite(frame.taken.level_db) and 0 <= frame.taken.clipped <= 1 for frame in frames)


def test_what_is_no_number_is_silence() -> None:
    """A broken sample, of whatever kind, does not spread, and warns nobody."""
    broken = np.full((1024, 1), 0x7F800001, np.uint32).view(np.float32)

    assert [bytes(2 * FRAME_SAMPLES)] * 2 == [frame.pcm for frame in framed(broken)]


@pytest.mark.parametrize("rate", [0, 1, 3_999, 10_000_000, float("nan")])
def test_absurd_rate_is_refused(rate: float) -> None:
    """No sound is spoken at such a rate."""
    with pytest.raises(SoundError, match="samples a second"):
        Framer(rate)


HALF = tone(0.96)
"""A tone at -9 dB."""

CHANNELS = [
    pytest.param([HALF, -HALF], id="opposite phase"),
    pytest.param([HALF, 0 * HALF], id="second dead"),
    pytest.param([0 * HALF, HALF], id="first dead"),
    pytest.param([0 * HALF + 0.3, HALF], id="first dead, with an offset"),
    pytest.param([HALF, -0.9 * HALF, 0.1 * HALF, 0 * HALF], id="four"),
    pytest.param([HALF + 0.4], id="one, with an offset"),
]


@pytest.mark.parametrize("channels", CHANNELS)
def test_channels_neither_cancel_nor_halve(channels: list[Samples]) -> None:
    """However the channels stand to each other, the tone comes out as loud as it came in."""
    got = levels_db(framed(np.stack(channels, axis=1)))

    assert [pytest.approx(-9.0, abs=0.3)] * len(got) == got


def test_speech_goes_over_to_the_other_channel() -> None:
    """A channel that dies is left after 0.1 s; whoever speaks into one that was silent is heard at once."""
    dies = np.stack([np.concatenate((HALF, 0 * HALF)), np.concatenate((0 * HALF, HALF))], axis=1)
    begins = np.stack([0 * dies[:, 1], dies[:, 1]], axis=1)

    assert sum(db < -15 for db in levels_db(framed(dies))) <= 4
    assert min(levels_db(framed(begins))[30:]) > -14.0


def test_an_offset_is_gone_within_a_moment() -> None:
    """Neither at the start nor on a jump is there a pop that lasts."""
    steady = framed(column(silence(1) + np.float32(0.5)))
    jump = framed(column(np.concatenate((silence(0.96), silence(0.96) - np.float32(0.5)))))

    assert {bytes(2 * FRAME_SAMPLES)} == {frame.pcm for frame in steady}
    assert {bytes(2 * FRAME_SAMPLES)} == {frame.pcm for frame in jump[:30] + jump[34:]}


def test_how_it_was_taken() -> None:
    """Each frame tells the level of the device, what was clipped, and what was lost."""
    framer = Framer(SAMPLE_RATE)
    loud = np.clip(4 * tone(FRAME_S), -1, 1)
    parts = [(noise(FRAME_S, -60.0), False), (silence(FRAME_S), True), (loud, False)]

    quiet, lost, clipped = (
        frame.taken for part, is_lost in parts for frame in framer.cut(column(part), lost=is_lost)
    )

    assert (pytest.approx(-60, abs=1), 0.0, False) == (quiet.level_db, quiet.clipped, quiet.lost)
    assert (True, 0.0) == (lost.lost, lost.clipped)
    assert 0.5 < clipped.clipped < 0.8
