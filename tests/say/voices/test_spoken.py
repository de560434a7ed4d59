"""The spoken voice: what it hands to its output."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from handsfree.care.manner import MOST
from handsfree.errors import PlaybackFailed
from handsfree.say.voices import synthesis
from handsfree.say.voices.loudspeaker import Loudspeaker
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.say.voices.spoken import (
    DEFAULT_RATE_WPM,
    DEFAULT_VOICE,
    PACES_WPM,
    STEP_DB,
    VOICES,
    SpokenVoice,
)
from handsfree.say.voices.synthesis import synthesise
from handsfree.signals import Manner
from handsfree.testing.voice import FakeOutput

SENTENCE = "Set forty two drops a minute, four two."


class KeptOutput:
    """Output that keeps what it is given."""

    def __init__(self) -> None:
        self.played: list[Pcm] = []

    def play(self, pcm: Pcm) -> None:
        self.played.append(pcm)

    def amplify(self, gain: float) -> None:
        self.gain = gain

    def hush(self) -> None:
        self.played.clear()


def test_length_and_hush() -> None:
    """The output gets the whole sentence, its length is told, and it is hushed when the voice is."""
    output = KeptOutput()
    voice = SpokenVoice(output)

    assert voice.say(SENTENCE) == synthesise(SENTENCE, DEFAULT_VOICE, DEFAULT_RATE_WPM).length_s
    assert output.played == [synthesise(SENTENCE, DEFAULT_VOICE, DEFAULT_RATE_WPM)]
    voice.hush()
    assert output.played == []


def test_speech_begins_soon() -> None:
    """There is no long silence before the first word, for whoever waits for it."""
    sound = np.frombuffer(synthesise(SENTENCE, DEFAULT_VOICE, DEFAULT_RATE_WPM).samples, "<i2")

    assert np.flatnonzero(np.abs(sound.astype(int)) > 500)[0] / SPEECH_RATE < 0.2


def test_rate() -> None:
    """Each sentence is said at the rate asked for, whatever was asked for before."""
    lengths_s = [synthesise(SENTENCE, "en-us", rate).length_s for rate in (101, 201, 102, 202)]

    assert min(lengths_s[0::2]) > 1.5 * max(lengths_s[1::2])
    assert pytest.approx(lengths_s[0], rel=0.05) == lengths_s[2]


def test_voices_differ() -> None:
    """Another voice gives another sound."""
    assert synthesise(SENTENCE, "en-us+f3", 150) != synthesise(SENTENCE, "en-us+m3", 150)


def test_silence_is_not_speech(monkeypatch: pytest.MonkeyPatch) -> None:
    """A synthesiser that gives silence for words is told as a failure, and not kept."""
    with monkeypatch.context() as patched:
        patched.setattr(synthesis, "_pcm", lambda _wav: Pcm(bytes(2_000)))
        with pytest.raises(PlaybackFailed, match="no sound"):
            synthesise("Stop now.", DEFAULT_VOICE, DEFAULT_RATE_WPM)

    assert any(synthesise("Stop now.", DEFAULT_VOICE, DEFAULT_RATE_WPM).samples)


def rms_db(samples: bytes) -> float:
    """Of full scale."""
    sound = np.frombuffer(samples, "<i2") / 32_768
    return float(10 * np.log10(np.mean(sound**2)))


@pytest.mark.parametrize("loudness", [-2, -1, 1, 2])
def test_loudness(loudness: int) -> None:
    """Speech and beat get louder by about the step, and nothing is cut off; softest they are still there."""
    heard = {}
    for steps in (0, loudness):
        device = FakeOutput()
        voice = SpokenVoice(Loudspeaker(device))
        voice.speak_as(Manner(loudness=steps))
        voice.say(SENTENCE)
        voice.beat(Fraction(60))
        heard[steps] = device.pull(2.0), device.pull(4.0)[-2 * SPEECH_RATE :]
    for plain, other in zip(heard[0], heard[loudness], strict=True):
        assert pytest.approx(rms_db(plain) + STEP_DB * loudness, abs=3.0) == rms_db(other)
        assert np.abs(np.frombuffer(other, "<i2").astype(int)).max() < 32_767
        assert rms_db(other) > -60.0
    assert (rms_db(heard[loudness][0]) > rms_db(heard[0][0])) == (loudness > 0)


def test_every_voice_can_be_had() -> None:
    """They differ from one another, and go round."""
    output = KeptOutput()
    voice = SpokenVoice(output)
    for number in range(len(VOICES) + 1):
        voice.speak_as(Manner(voice=number))
        voice.say(SENTENCE)
    assert len({one.samples for one in output.played}) == len(VOICES)
    assert output.played[0] == output.played[-1]


def test_pace() -> None:
    """Each step is slower or faster than the one beside it."""
    output = KeptOutput()
    voice = SpokenVoice(output)
    lengths_s = []
    for pace in range(-MOST, MOST + 1):
        voice.speak_as(Manner(pace=pace))
        lengths_s.append(voice.say(SENTENCE))
    assert lengths_s == sorted(lengths_s, reverse=True)
    assert len(set(lengths_s)) == len(PACES_WPM) == 2 * MOST + 1
