"""The microphone, proven against a device that does what devices do."""

from __future__ import annotations

import sys
from itertools import islice
from queue import Empty, SimpleQueue

import numpy as np
import pytest

from handsfree.errors import SoundError
from handsfree.hear.microphone import LONGEST_GAP_S, Microphone
from handsfree.signals import FRAME_S, Frame
from handsfree.testing.sound_device import FakeSoundDevice, Overflow, Sound, Unplugged
from handsfree.testing.source_contract import check_frames
from tests.hear.sound import silence, tone

SECOND = Sound(tone(1.024).astype(float))


def taken(microphone: Microphone, seconds: float) -> list[Frame]:
    return list(islice(microphone.frames(), round(seconds / FRAME_S)))


@pytest.mark.parametrize("rate", [16_000, 44_100, 48_000])
def test_sound_comes_as_frames(rate: int) -> None:
    """Whatever rate the device has, its sound comes in frames of our rate."""
    device = FakeSoundDevice(Sound(tone(1.0, rate=rate).astype(float)), rate=rate)

    check_frames(Microphone(sounddevice=device), at_least=30)


def test_overflow_is_kept_as_silence_and_counted() -> None:
    """Lost sound leaves a gap of its own length, so that times after it are right."""
    microphone = Microphone(sounddevice=FakeSoundDevice(SECOND, Overflow(0.512), SECOND))

    frames = taken(microphone, 2.56)

    lost = [frame.end_s for frame in frames if frame.taken.lost]
    assert [pytest.approx(1.024 + FRAME_S * (n + 1)) for n in range(16)] == lost
    assert (1, pytest.approx(0.512)) == (microphone.gaps, microphone.lost_s)


def test_a_short_overflow_is_told_too() -> None:
    """Less than a frame of lost sound is still told: by the one frame that holds it."""
    microphone = Microphone(sounddevice=FakeSoundDevice(SECOND, Overflow(0.010), SECOND))

    lost = [frame.end_s for frame in taken(microphone, 2.0) if frame.taken.lost]

    assert [pytest.approx(1.024 + FRAME_S)] == lost


@pytest.mark.parametrize("rate", [16_000, 44_100, 48_000])
def test_a_frame_tells_how_late_it_is(rate: int) -> None:
    """The device's own delay, and what a change of rate holds back: with both, every frame was heard when it
    was, by the device's time."""
    sound = Sound(tone(1.0, rate=rate).astype(float))
    device = FakeSoundDevice(sound, rate=rate, delay_s=0.040)
    late = [frame.taken.late_s for frame in taken(Microphone(sounddevice=device), 0.9)]
    held_s = 0.0 if rate == 16_000 else 2 * FRAME_S

    assert all(-1e-6 <= one - 0.040 <= held_s + 1e-6 for one in late)


def test_a_device_that_does_not_know_its_time_is_not_late() -> None:
    """A delay that is absurd counts as none."""
    device = FakeSoundDevice(SECOND, delay_s=-500.0)

    assert {0.0} == {round(frame.taken.late_s, 9) for frame in taken(Microphone(sounddevice=device), 0.96)}


def test_absurd_gap_is_bounded() -> None:
    """A device whose clock jumps by a day does not fill the memory with silence."""
    microphone = Microphone(sounddevice=FakeSoundDevice(SECOND, Overflow(86_400), SECOND))

    taken(microphone, 2.0)

    assert microphone.lost_s == LONGEST_GAP_S


FAILURES = [
    pytest.param((SECOND, Unplugged()), "gone", id="unplugged"),
    pytest.param((SECOND,), "no sound", id="mute"),
    pytest.param((), "no sound", id="never a sound"),
]


@pytest.mark.parametrize(("script", "says"), FAILURES)
def test_dead_microphone_is_said(script: tuple, says: str) -> None:
    """What came before is heard, then the failure is told with its next step."""
    microphone = Microphone(sounddevice=FakeSoundDevice(*script), stall_s=0.01)

    with pytest.raises(SoundError, match=says) as failed:
        list(microphone.frames())

    assert failed.value.next_step


class TakenLate(SimpleQueue):
    """What a program finds that was busy until its wait was over: nothing at first, though sound has come."""

    first = True

    def get(self, block: bool = True, timeout: float | None = None) -> object:
        if self.first:
            self.first = False
            raise Empty
        return super().get(block, timeout)


def test_sound_that_is_taken_late_is_sound(monkeypatch: pytest.MonkeyPatch) -> None:
    """PocketSphinx lets no other thread run while it decodes: that is no dead microphone."""
    monkeypatch.setattr("handsfree.hear.microphone.SimpleQueue", TakenLate)

    assert taken(Microphone(sounddevice=FakeSoundDevice(SECOND)), 0.96)


def test_silence_is_sound() -> None:
    """A quiet room is not a dead microphone."""
    frames = taken(Microphone(sounddevice=FakeSoundDevice(Sound(silence(1).astype(float)))), 0.96)

    assert {bytes(1024)} == {frame.pcm for frame in frames}


def test_no_microphone_is_said() -> None:
    """A machine without a microphone says so before anything starts."""
    with pytest.raises(SoundError, match="no microphone"):
        Microphone(sounddevice=FakeSoundDevice(there=False))


def test_no_portaudio_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without PortAudio the message says how to install it."""

    class Missing:
        def find_spec(self, name: str, *_: object) -> None:
            if name == "sounddevice":
                raise OSError("PortAudio library not found")

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])

    with pytest.raises(SoundError, match=r"PortAudio.*libportaudio2"):
        Microphone()


def test_device_that_cannot_be_opened_is_said() -> None:
    """A device that is busy is told apart from one that is not there."""
    device = FakeSoundDevice(SECOND)
    device.RawInputStream = lambda **_: (_ for _ in ()).throw(device.PortAudioError("busy"))

    with pytest.raises(SoundError, match="cannot be opened"):
        list(Microphone(sounddevice=device).frames())


CHANNELS = [(1, 1), (2, 2), (6, 6), (64, 2)]


@pytest.mark.parametrize(("there", "taken_of_them"), CHANNELS)
def test_channels(there: int, taken_of_them: int) -> None:
    """All channels of a device are listened to; of one that makes up as many as one likes, two are."""
    device = FakeSoundDevice(SECOND, channels=there)

    check_frames(Microphone(sounddevice=device), at_least=30)

    assert taken_of_them == device.opened


def test_one_channel_is_dead() -> None:
    """A microphone on one side of a plug with two is as loud as with one."""
    both = np.stack([0 * SECOND.samples, SECOND.samples], axis=1)

    one, two = (
        taken(Microphone(sounddevice=FakeSoundDevice(Sound(sound), channels=channels)), 0.96)
        for sound, channels in ((SECOND.samples, 1), (both, 2))
    )

    assert [frame.pcm for frame in one] == [frame.pcm for frame in two]
