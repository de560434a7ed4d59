"""The spoken voice: what it hands to its output."""

from __future__ import annotations

import numpy as np
import pytest

from handsfree.errors import PlaybackFailed
from handsfree.say.voices import synthesis
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.say.voices.spoken import DEFAULT_RATE_WPM, DEFAULT_VOICE, SpokenVoice
from handsfree.say.voices.synthesis import synthesise

SENTENCE = "Set forty two drops a minute, four two."


class KeptOutput:
    """Output that keeps what it is given."""

    def __init__(self) -> None:
        self.played: list[Pcm] = []

    def play(self, pcm: Pcm) -> None:
        self.played.append(pcm)

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
