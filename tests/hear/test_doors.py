"""Doors: every one keeps the contract, and each its own promise."""

from __future__ import annotations

import io
import os
import threading
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.clock import SoundClock, SteadyClock
from handsfree.errors import SoundError
from handsfree.hear.clip_door import MOST_ASKED, ClipDoor
from handsfree.hear.microphone import Microphone
from handsfree.hear.sound_door import LiveDoor, SoundDoor
from handsfree.hear.typed_door import TypedDoor
from handsfree.ports import Sentences
from handsfree.signals import (
    FRAME_S,
    SAMPLE_RATE,
    Alternative,
    Closed,
    Frame,
    Gate,
    Lapsed,
    Noticed,
    Stirred,
    Taken,
    Trouble,
    Utterance,
)
from handsfree.testing.door_contract import check_closed, check_deaf, check_heard, check_lapse
from handsfree.testing.doors import FakeDoor, said
from handsfree.testing.ears import FakeEar, FakeSource, written
from handsfree.testing.sentences import ListedSentences
from handsfree.testing.sound_device import FakeSoundDevice, Overflow, Sound, Unplugged
from tests.hear.sound import noise, tone

SENTENCES = ListedSentences("next", "go back", "fifteen drops")
START = datetime(2031, 5, 4, 8, tzinfo=UTC)
QUIET = ("",) * 20


class Mute:
    """A source that blocks and never gives a frame."""

    def frames(self) -> Iterator[Frame]:
        threading.Event().wait()
        yield from ()


class LoudnessEar:
    """Hears one word in each stretch of sound that is not silent; keeps every frame it got."""

    def __init__(self) -> None:
        self.frames: list[Frame] = []
        self._loud = False

    @property
    def stirred(self) -> bool:
        return self._loud

    def knows(self, word: str) -> bool:
        return True

    def listen(self, sentences: Sentences) -> None:
        self._loud = False

    def hear(self, frame: Frame | None) -> Utterance | None:
        if frame is None:
            return None
        self.frames.append(frame)
        was, self._loud = self._loud, any(frame.pcm)
        return Utterance((Alternative(("next",)),)) if was and not self._loud else None


def clips(folder: Path, *names: str, seconds: float = 0.1) -> Path:
    for name in names:
        soundfile.write(folder / name, tone(seconds), SAMPLE_RATE)
    return folder


def test_sound_door_keeps_the_contract() -> None:
    """A recording is heard to its end; its sound is the clock."""
    clock = SoundClock(START)
    check_closed(
        SoundDoor(FakeSource("next", "", "go back", *QUIET), FakeEar(), clock), SENTENCES, "next", "go back"
    )
    assert START + timedelta(seconds=23 * FRAME_S) == clock.now()
    check_lapse(SoundDoor(FakeSource(*QUIET), FakeEar(), clock), clock, SENTENCES)
    check_deaf(SoundDoor(FakeSource("next", *QUIET), FakeEar(), clock), clock, SENTENCES)


def test_live_door_keeps_the_contract() -> None:
    """A microphone is waited for by the clock."""
    clock = SteadyClock()
    check_closed(LiveDoor(FakeSource("next", "", "go back"), FakeEar(), clock), SENTENCES, "next", "go back")
    check_lapse(LiveDoor(Mute(), FakeEar(), clock), clock, SENTENCES)
    check_deaf(LiveDoor(FakeSource("next", *QUIET), FakeEar(), clock), clock, SENTENCES)


def test_live_door_tells_that_somebody_speaks() -> None:
    """At once, before it is known what was said; and when it is over."""
    door = LiveDoor(FakeSource("", "go", "back", "", "", "next"), FakeEar(), SteadyClock())
    door.open(SENTENCES, Gate.OPEN, "")
    came = [door.next(None) for _ in range(6)]
    words = [one.alternatives[0].words if isinstance(one, Utterance) else one for one in came]

    one, two = ("go", "back"), ("next",)
    assert words == [Stirred(True), one, Stirred(False), Stirred(True), two, Stirred(False)]


class Counted:
    """A source that tells when the last of its frames has come in."""

    def __init__(self, *frames: Frame) -> None:
        self._frames, self.done = frames, threading.Event()

    def frames(self) -> Iterator[Frame]:
        yield from self._frames
        self.done.set()


@pytest.mark.parametrize(("held_back_s", "computed_s"), [(0.0, 0.0), (0.1, 0.0), (0.0, 0.7), (0.1, 0.7)])
def test_live_door_tells_how_late_an_utterance_comes(held_back_s: float, computed_s: float) -> None:
    """By how long the device held the sound back, and by how long the machine was busy since."""
    clock = SoundClock(START)
    source = Counted(*(replace(one, taken=Taken(late_s=held_back_s)) for one in written("next", "", "")))
    door = LiveDoor(source, FakeEar(), clock)
    door.open(SENTENCES, Gate.OPEN, "")
    source.done.wait()
    clock.advance(computed_s)

    assert Stirred(True) == door.next(None)
    utterance = door.next(None)
    assert isinstance(utterance, Utterance)
    assert pytest.approx(held_back_s + computed_s) == utterance.late_s


def test_typed_door_keeps_the_contract() -> None:
    """Lines come out in order, blank ones don't, the end closes."""
    clock = SteadyClock()
    typed = io.BytesIO(b"Next.\n\n  \n15 drops\r\n\xff go back")
    check_closed(TypedDoor(typed, clock), SENTENCES, "next", "fifteen drops", "go back")
    check_closed(TypedDoor(io.StringIO("next\n"), clock), SENTENCES, "next")
    check_closed(TypedDoor(io.BytesIO(), clock), SENTENCES)
    read, write = os.pipe()
    with os.fdopen(read, "rb") as stream:
        check_lapse(TypedDoor(stream, clock), clock, SENTENCES)
        os.close(write)


def test_clip_door_keeps_the_contract(tmp_path: Path) -> None:
    """Questions are answered, silence passes, and the door closes where nothing can come."""
    clips(tmp_path, "rate.wav")
    clock = SoundClock(START)
    check_heard(ClipDoor(tmp_path, LoudnessEar(), clock), SENTENCES, "next", asks="rate")
    check_lapse(ClipDoor(tmp_path, LoudnessEar(), clock), clock, SENTENCES)
    check_closed(ClipDoor(tmp_path, LoudnessEar(), clock), SENTENCES)
    check_deaf(ClipDoor(tmp_path, LoudnessEar(), clock), clock, SENTENCES)


def test_fake_door_keeps_the_contract() -> None:
    """The fake behaves as the real ones do."""
    clock = SoundClock(START)
    check_closed(FakeDoor(clock, said("next", 1.0), said("go back", 2.0)), SENTENCES, "next", "go back")
    check_lapse(FakeDoor(clock, said("next", 1.0)), clock, SENTENCES)
    check_deaf(FakeDoor(clock, said("next", 0.05)), clock, SENTENCES)


def test_what_is_half_heard_is_dropped_with_its_gate() -> None:
    """The program's own first word must not be completed by what comes after it."""
    clock = SoundClock(START)
    door = SoundDoor(FakeSource("go", "back", "", "next", "", ""), FakeEar(), clock)
    door.open(SENTENCES, Gate.OPEN, "")
    assert Lapsed() == door.next(START + timedelta(seconds=FRAME_S))
    door.open(SENTENCES, Gate.DEAF, "")
    assert Lapsed() == door.next(START + timedelta(seconds=2 * FRAME_S))
    door.open(SENTENCES, Gate.OPEN, "")
    assert Lapsed() == door.next(START + timedelta(seconds=4 * FRAME_S))
    door.open(SENTENCES, Gate.OPEN, "other")

    heard = door.next(None)

    assert isinstance(heard, Utterance)
    assert heard.alternatives[0].words == ("next",)


class Endless:
    """A microphone that tells when it was let go."""

    let_go = False

    def frames(self) -> Iterator[Frame]:
        try:
            while True:
                yield Frame(bytes(1024), 0.0)
        finally:
            self.let_go = True


def test_a_door_that_is_closed_lets_go_of_its_microphone() -> None:
    """Nothing of it is left at work when the program ends."""
    microphone = Endless()
    LiveDoor(microphone, FakeEar(), SteadyClock()).close()

    assert microphone.let_go


def test_dead_microphone_is_said_at_once() -> None:
    """A failure in the reader's thread comes out of the wait, as what it is."""
    door = LiveDoor(Microphone(sounddevice=FakeSoundDevice(Unplugged())), FakeEar(), SteadyClock())
    door.open(SENTENCES, Gate.OPEN, "")

    with pytest.raises(SoundError, match="gone"):
        door.next(None)


def test_second_answer_has_its_own_clip(tmp_path: Path) -> None:
    """`rate.2` answers the second time, `rate` every other time; other questions count apart."""
    clips(tmp_path, "rate.wav")
    clips(tmp_path, "rate.2.flac", seconds=0.2)
    clips(tmp_path, "site.ogg", seconds=1.0)
    ear = LoudnessEar()
    door = ClipDoor(tmp_path, ear, SoundClock(START))

    lengths = []
    for asks in ("rate", "site", "rate", "rate"):
        door.open(SENTENCES, Gate.OPEN, asks)
        ear.frames.clear()
        assert isinstance(door.next(None), Utterance)
        lengths.append(sum(any(frame.pcm) for frame in ear.frames))

    assert [4, pytest.approx(32, abs=1), 7, 4] == lengths


def test_clip_that_is_never_heard_ends_the_session(tmp_path: Path) -> None:
    """A question that is asked again and again is named; each time the clip was played in full."""
    door = ClipDoor(clips(tmp_path, "rate.wav"), FakeEarThatHearsNothing(), SoundClock(START))
    door.open(SENTENCES, Gate.OPEN, "rate")

    assert Closed(f"The question rate was asked more than {MOST_ASKED} times in a row.") == door.next(None)


class FakeEarThatHearsNothing(LoudnessEar):
    def hear(self, frame: Frame | None) -> Utterance | None:
        return None


def test_missing_clip_is_named(tmp_path: Path) -> None:
    """A question without a clip closes the door and names the question."""
    door = ClipDoor(tmp_path, FakeEar(), SoundClock(START))
    door.open(SENTENCES, Gate.OPEN, "allergies")

    assert Closed("There is no clip for the question allergies.") == door.next(None)


def test_times_of_clips_go_on(tmp_path: Path) -> None:
    """The ear gets one stream of frames, whatever is played, and the clock goes with it."""
    ear, clock = LoudnessEar(), SoundClock(START)
    door = ClipDoor(clips(tmp_path, "rate.wav"), ear, clock)
    for asks in ("rate", "", "rate"):
        door.open(SENTENCES, Gate.OPEN, asks)
        door.next(clock.now() + timedelta(seconds=1))

    ends = [frame.end_s for frame in ear.frames]
    assert [pytest.approx((n + 1) * FRAME_S) for n in range(len(ends))] == ends
    assert timedelta(seconds=len(ends) * FRAME_S).total_seconds() == pytest.approx(
        (clock.now() - START).total_seconds(), abs=0.001
    )


ZEROS, ROOM = Sound(np.zeros(10 * SAMPLE_RATE)), Sound(noise(1.024, -60.0).astype(float))

TROUBLES = [
    pytest.param((ZEROS,), Gate.OPEN, Trouble.DEAD, id="muted"),
    pytest.param((ROOM, Overflow(1.0), ROOM), Gate.OPEN, Trouble.LOST, id="the machine is too slow"),
    pytest.param((ROOM,), Gate.OPEN, None, id="a still room"),
    pytest.param((ZEROS,), Gate.DEAF, None, id="not listened to"),
]


@pytest.mark.parametrize(("script", "gate", "trouble"), TROUBLES)
def test_a_live_door_tells_of_trouble(script: tuple, gate: Gate, trouble: Trouble | None) -> None:
    """Trouble with the sound comes out of the wait once, while the ear is open; then the device ends."""
    microphone = Microphone(sounddevice=FakeSoundDevice(*script, Unplugged()))
    door = LiveDoor(microphone, FakeEarThatHearsNothing(), SteadyClock())
    door.open(SENTENCES, gate, "")

    if trouble is not None:
        assert Noticed(trouble) == door.next(None)
    with pytest.raises(SoundError, match="gone"):
        door.next(None)
