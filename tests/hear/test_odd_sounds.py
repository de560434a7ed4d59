"""Noise, music, silence, clipping, random bytes: nothing is raised, and nothing is accepted.

The whole hour: python -m tests.bench.hour_of_noise
"""

from __future__ import annotations

import numpy as np
import pytest

from handsfree.hear.framing import Framer
from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE, Frame, Heard
from tests.bench.hour_of_noise import accepted
from tests.ears import vosk
from tests.hear.odd_sounds import KINDS
from tests.voice import moments

SECONDS = 20.0


@pytest.mark.vosk
@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_accepted(vosk_model: object, kind: str) -> None:
    """With everything open that can be said, no command is heard in what nobody said."""
    assert [] == [one.outcome for one in accepted(vosk(), kind, 3, SECONDS) if isinstance(one.outcome, Heard)]


@pytest.mark.vosk
def test_random_bytes_are_frames(vosk_model: object) -> None:
    """An ear takes whatever stands in a frame, and hears on after it."""
    ear, random = vosk(), np.random.default_rng(5)
    ear.listen(moments.compiled(moments.of_all(), ear.knows))

    for number in range(1, 200):
        ear.hear(Frame(random.bytes(2 * FRAME_SAMPLES), number))
    ear.hear(None)


def test_silence_stays_silence() -> None:
    """Five minutes of a still room are not turned up on their way in."""
    room = np.random.default_rng(1).normal(0, 1e-4, (300 * SAMPLE_RATE, 1)).astype(np.float32)

    loudest = max(np.abs(np.frombuffer(frame.pcm, "<i2")).max() for frame in Framer(SAMPLE_RATE).cut(room))

    assert loudest < 20
