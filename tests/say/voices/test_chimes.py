"""Short sounds: short, told apart, and neither speech nor an alarm to those who hear them."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
import soxr

from handsfree.hear.detector import SpeechDetector
from handsfree.say.voices.chimes import LEVEL, sounded
from handsfree.say.voices.pcm import SPEECH_RATE
from handsfree.say.voices.ticker import Ticker
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE, Chime, Frame
from tests.voice.noises import at_level, white

Sound = np.typing.NDArray[np.float64]


def samples(chime: Chime) -> Sound:
    return np.frombuffer(sounded(chime).samples, "<i2") / 32768


def colour(chime: Chime) -> Sound:
    """Strength of its tones in every tenth of a second, half a second long; each sound at one level."""
    whole = np.zeros(SPEECH_RATE)
    whole[: len(samples(chime))] = samples(chime)
    pieces = whole[: SPEECH_RATE // 2].reshape(5, -1)
    bands = np.abs(np.fft.rfft(pieces, axis=1))[:, :150]
    return np.asarray(bands / np.linalg.norm(bands))


@pytest.mark.parametrize("chime", list(Chime))
def test_it_is_short_and_soft(chime: Chime) -> None:
    """It is over before the next word, never at full scale, and begins and ends without a click."""
    sound = samples(chime)

    assert sounded(chime).length_s <= 0.7
    assert float(np.max(np.abs(sound))) == pytest.approx(LEVEL, abs=0.01)
    assert max(abs(sound[0]), abs(sound[-1])) < 0.01


@pytest.mark.parametrize(("one", "other"), list(combinations(Chime, 2)))
def test_no_two_are_alike(one: Chime, other: Chime) -> None:
    """Their tones over time have less than three quarters in common (1: the same sound)."""
    assert float(np.sum(colour(one) * colour(other))) < 0.75


def beat(drops_per_min: int) -> Sound:
    """Two seconds of it."""
    ticker = Ticker(SPEECH_RATE)
    ticker.beat(Fraction(drops_per_min))
    return np.frombuffer(ticker.render(2 * SPEECH_RATE), "<i2") / 32768


SOUNDS = {**{chime.value: samples(chime) for chime in Chime}, "beat": beat(42), "quick beat": beat(250)}


@pytest.mark.parametrize("sound", SOUNDS.values(), ids=SOUNDS)
def test_it_is_no_speech_to_the_ear(sound: Sound) -> None:
    """The detector of speech lets it pass in a room that hisses: the ear stays open meanwhile, and a beat
    does not give way to itself."""
    sound = np.asarray(soxr.resample(sound, SPEECH_RATE, SAMPLE_RATE), np.float32)
    room = at_level(white(3), -55)
    room[SAMPLE_RATE : SAMPLE_RATE + len(sound)] += sound
    detector = SpeechDetector()
    heard = [
        detector.hears(Frame((room[at : at + FRAME_SAMPLES] * 32767).astype("<i2").tobytes(), 0.0))
        for at in range(0, len(room) - FRAME_SAMPLES, FRAME_SAMPLES)
    ]

    assert not any(heard)
