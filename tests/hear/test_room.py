"""The room's steady sound is taken out, and speech is left as it was.

The sounds are computed, and so is what is expected: how much is left of hiss, of a tone, of nothing.
"""

from __future__ import annotations

import numpy as np
import pytest

from handsfree.hear.level import level_db
from handsfree.hear.room import LEAST_DB, RoomFilter
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE
from tests.hear.sound import Sound, noise, speech, tone

LAG = FRAME_SAMPLES // 2
"""Samples by which the filter is behind."""


def frames(sound: Sound) -> list[bytes]:
    """Whole frames of 16-bit samples."""
    pcm = np.round(sound[: len(sound) // FRAME_SAMPLES * FRAME_SAMPLES] * 32767).astype("<i2").tobytes()
    return [pcm[at : at + 2 * FRAME_SAMPLES] for at in range(0, len(pcm), 2 * FRAME_SAMPLES)]


def cleaned(room: RoomFilter, sound: Sound) -> Sound:
    """What comes through as one utterance."""
    room.begin()
    pcm = b"".join(room.clean(frame) for frame in frames(sound))
    return np.frombuffer(pcm, "<i2").astype(np.float32) / 32767


def taught(sound: Sound) -> RoomFilter:
    """A filter that has heard the room."""
    room = RoomFilter()
    for frame in frames(sound):
        room.learn(frame)
    return room


@pytest.mark.parametrize("room", [RoomFilter(), taught(np.zeros(SAMPLE_RATE, np.float32))])
def test_speech_in_silence_comes_through_as_it_was(room: RoomFilter) -> None:
    """Nothing known of the room, or digital silence: not a hundredth is changed. It begins softly."""
    said = speech("the tourniquet is off")
    heard = cleaned(room, said)

    assert level_db((heard - said[: len(heard)])[LAG:]) < level_db(said) - 40


def test_half_a_frame_is_held_back() -> None:
    """All pieces but the first are frames, and the last half frame is not told."""
    room = RoomFilter()
    lengths = [len(room.clean(frame)) // 2 for frame in frames(tone(0.2))]

    assert lengths == [LAG, *[FRAME_SAMPLES] * (len(lengths) - 1)]


def test_of_hiss_a_little_is_left() -> None:
    """Hiss that is known becomes quieter, and never by more than may go."""
    room = taught(noise(2.0, -40.0, seed=1))
    left_db = level_db(cleaned(room, noise(2.0, -40.0, seed=2))[SAMPLE_RATE:])

    assert -40.0 + LEAST_DB < left_db < -44.0


def test_what_stands_out_of_hiss_stays() -> None:
    """A tone over hiss keeps its level; of the hiss beside it less than half is left."""
    hiss = noise(1.0, -30.0, seed=2)
    heard = cleaned(taught(noise(1.0, -30.0, seed=1)), hiss + 0.4 * tone(1.0, 1000.0))
    spectrum = np.abs(np.fft.rfft(heard[-8192:] * np.hanning(8192)))
    before = np.abs(np.fft.rfft((hiss + 0.4 * tone(1.0, 1000.0))[-8192 - LAG : -LAG] * np.hanning(8192)))
    at = round(1000 * 8192 / SAMPLE_RATE)

    assert spectrum[at] == pytest.approx(before[at], rel=0.1)
    assert np.mean(spectrum[at + 500 :] ** 2) < np.mean(before[at + 500 :] ** 2) / 2


def test_a_room_that_grows_louder_is_followed_while_somebody_speaks() -> None:
    """An engine that starts in the midst of an utterance is known within a few seconds."""
    heard = cleaned(taught(noise(1.0, -60.0, seed=1)), noise(8.0, -30.0, seed=2))

    assert level_db(heard[SAMPLE_RATE // 4 : SAMPLE_RATE]) == pytest.approx(-30.0, abs=0.5)
    assert level_db(heard[-SAMPLE_RATE:]) < -34.0


def test_one_utterance_does_not_ring_in_the_next() -> None:
    """What was said before is forgotten."""
    room = taught(noise(1.0, -60.0))
    cleaned(room, tone(0.5))

    assert level_db(cleaned(room, noise(0.2, -60.0, seed=3))) < -60.0
