"""The loudspeaker, proven against a device that does what devices do."""

from __future__ import annotations

import sys
from fractions import Fraction

import numpy as np
import pytest

from handsfree.errors import PlaybackFailed
from handsfree.say.voices.loudspeaker import Loudspeaker, default_loudspeaker
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.testing.voice import FakeOutput
from tests.say.voices.test_ticker import onsets_s

ONE_S = Pcm((np.sin(np.arange(SPEECH_RATE) * 0.06) * 9000).astype("<i2").tobytes())


def test_plays_in_order_then_silence() -> None:
    """Sound comes out whole, one piece behind the other, however the device cuts it; silence follows."""
    device = FakeOutput()
    loudspeaker = Loudspeaker(device)
    loudspeaker.play(ONE_S)
    loudspeaker.play(ONE_S)

    heard = b"".join(device.pull(0.25) for _ in range(12))

    assert heard.rstrip(b"\0") == (ONE_S.samples * 2).rstrip(b"\0")
    assert len(heard) == 12 * 2 * round(0.25 * SPEECH_RATE)


@pytest.mark.parametrize("rate", [16_000, 44_100, 48_000])
def test_rate_of_the_device(rate: int) -> None:
    """Whatever rate the device has, a second stays a second, at the same level."""
    device = FakeOutput(rate)
    Loudspeaker(device).play(ONE_S)

    heard = np.frombuffer(device.pull(2.0), "<i2").astype(float)

    loud = np.flatnonzero(np.abs(heard) > 500)
    assert pytest.approx(1.0, abs=0.01) == (loud[-1] - loud[0]) / rate
    assert pytest.approx(9000, rel=0.05) == np.abs(heard).max()


def test_hush() -> None:
    """What was not played yet is dropped at once; what is said next is heard."""
    device = FakeOutput()
    loudspeaker = Loudspeaker(device)
    loudspeaker.play(ONE_S)
    device.pull(0.1)
    loudspeaker.hush()
    assert not any(device.pull(1.0))

    loudspeaker.play(ONE_S)
    assert any(device.pull(1.0))


def test_beat_gives_way_to_speech_and_keeps_its_time() -> None:
    """Ticks fall on their grid before and after a sentence, none into it; the beat outlives a lost device."""
    device = FakeOutput()
    loudspeaker = Loudspeaker(device)
    loudspeaker.beat(Fraction(120))
    before = device.pull(1.2)
    loudspeaker.play(ONE_S)
    amid = device.pull(1.0)
    after = device.pull(0.5)

    assert [0.0, 0.5, 1.0] == pytest.approx(onsets_s(before), abs=0.001)
    assert ONE_S.samples == amid
    assert [0.3] == pytest.approx(onsets_s(after), abs=0.001)
    loudspeaker.close()
    loudspeaker.play(ONE_S)
    assert [0.0, 0.5] == pytest.approx(onsets_s(device.pull(2.0)[2 * SPEECH_RATE :]), abs=0.001)
    loudspeaker.beat(None)
    assert [] == onsets_s(device.pull(1.0))


def test_no_device() -> None:
    """Without a loudspeaker, one sentence says so and what to do; plugged in later, it works."""
    device = FakeOutput(there=False)
    loudspeaker = Loudspeaker(device)
    with pytest.raises(PlaybackFailed, match=r"does not work .* Plug in"):
        loudspeaker.play(ONE_S)

    device.there = True
    loudspeaker.play(ONE_S)
    assert any(device.pull(0.5))


def test_unplugged() -> None:
    """A loudspeaker that goes away in mid-sentence is told with the next one, and tried anew after."""
    device = FakeOutput()
    loudspeaker = Loudspeaker(device)
    loudspeaker.play(ONE_S)
    device.there = False
    for _ in range(2):
        with pytest.raises(PlaybackFailed, match="Plug in"):
            loudspeaker.play(ONE_S)

    device.there = True
    loudspeaker.play(ONE_S)
    assert device.pull(3.0).rstrip(b"\0") == ONE_S.samples.rstrip(b"\0")


def test_device_that_takes_nothing() -> None:
    """A device that plays without end and without sound is found out."""
    loudspeaker = Loudspeaker(FakeOutput())
    with pytest.raises(PlaybackFailed, match="takes no sound"):
        for _ in range(100):
            loudspeaker.play(ONE_S)


def test_no_port_audio(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without PortAudio, one sentence says what to install."""

    class Missing:
        def find_spec(self, name: str, path: object, target: object = None) -> None:
            if name == "sounddevice":
                raise OSError("PortAudio library not found")

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])

    with pytest.raises(PlaybackFailed, match="libportaudio2"):
        default_loudspeaker()
