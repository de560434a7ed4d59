"""Quiet speakers are brought up; nothing else is changed."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.hear.level import MOST_GAIN_DB, WANTED_DB, Gain, OffsetFilter, Sound, level_db
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE
from tests.hear.sound import noise, tone

Part = tuple[float, float]
"""Seconds and level in dB."""


def sounding(*parts: Part) -> Sound:
    """Noise of these levels, one after the other."""
    return np.concatenate([noise(seconds, level) for seconds, level in parts]).astype(np.float64)


def gained_db(gain: Gain, *parts: Part) -> list[float]:
    """By how much each frame was made louder."""
    sound = sounding(*parts)
    frames = sound[: len(sound) // FRAME_SAMPLES * FRAME_SAMPLES].reshape(-1, FRAME_SAMPLES)
    return [level_db(gain.applied(frame)) - level_db(frame) for frame in frames]


ROOM = (2.0, -75.0)

TAUGHT = [
    pytest.param([ROOM, (1.0, -20.0)], 0.0, id="loud speech stays as it is"),
    pytest.param([ROOM, (1.0, WANTED_DB)], 0.0, id="so does speech that is loud enough"),
    pytest.param([ROOM, (1.0, -45.0)], 15.0, id="quiet speech is brought up"),
    pytest.param([ROOM, (1.0, -62.0)], MOST_GAIN_DB, id="no more than is bearable"),
    pytest.param([(3600.0, -90.0)], 0.0, id="an hour of silence is not turned up"),
    pytest.param([(60.0, -50.0)], 0.0, id="nor is the hum of a room"),
    pytest.param([(5.0, -75.0), (60.0, -66.0)], 0.0, id="nor is a room that grows louder"),
    pytest.param([(1.0, -120.0), (60.0, -75.0)], 0.0, id="nor is hiss after exact zeros"),
    pytest.param([ROOM, (1.0, -45.0), (600.0, -75.0)], 15.0, id="a pause changes nothing"),
    pytest.param([ROOM, (1.0, -45.0), ROOM, (0.5, -25.0)], 0.0, id="the louder speaker counts at once"),
    pytest.param([ROOM, (0.5, -25.0), ROOM, (4.0, -50.0)], 0.0, id="the farther one only slowly"),
]


@pytest.mark.parametrize(("parts", "db"), TAUGHT)
def test_gain(parts: list[Part], db: float) -> None:
    """After each of these sounds, the gain is this."""
    assert pytest.approx(db, abs=1.0) == gained_db(Gain(), *parts)[-1]


def test_the_first_word_is_brought_up_within_a_frame() -> None:
    """A quiet speaker does not have to say it twice."""
    gain = Gain()
    gained_db(gain, ROOM)

    assert gained_db(gain, (4 * FRAME_S, -50.0))[1:] == [pytest.approx(20.0, abs=1.0)] * 3


@given(st.lists(st.tuples(st.floats(0.05, 1.0), st.floats(-90.0, -12.0)), min_size=1, max_size=8))
def test_never_clips_and_never_lowers(parts: list[Part]) -> None:
    """Whatever comes after whatever, no sample is beyond full scale, and none is softer than it was."""
    gain, sound = Gain(), np.clip(sounding(*parts), -1, 1)

    for frame in sound[: len(sound) // FRAME_SAMPLES * FRAME_SAMPLES].reshape(-1, FRAME_SAMPLES):
        louder = gain.applied(frame)
        assert np.all(np.abs(louder) <= 1 + 1e-9)
        assert np.all(np.abs(louder) >= np.abs(frame))


@pytest.mark.parametrize("hertz", [100.0, 440.0, 4000.0])
def test_speech_passes_the_offset_filter(hertz: float) -> None:
    """What is spoken loses less than a third of a decibel, an offset and what sways is gone."""
    sound = tone(0.96, hertz).astype(np.float64)
    sways = 0.3 * np.sin(2 * np.pi * 1.0 * np.arange(len(sound)) / SAMPLE_RATE)
    filters = OffsetFilter(SAMPLE_RATE, 1)

    pieces = [filters.without(piece) for piece in (sound + sways + 0.2).reshape(-1, FRAME_SAMPLES, 1)]

    assert pytest.approx(level_db(sound), abs=0.33) == level_db(np.concatenate(pieces)[SAMPLE_RATE // 2 :, 0])
