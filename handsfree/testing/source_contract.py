"""What every source keeps to."""

from __future__ import annotations

import math
from itertools import islice

from handsfree.ports import Source
from handsfree.signals import FRAME_S, FRAME_SAMPLES


def check_frames(source: Source, at_least: int) -> None:
    """Frames have one size, and their time is their number; `at_least` of them come."""
    frames = list(islice(source.frames(), at_least))
    assert len(frames) == at_least
    for number, frame in enumerate(frames, start=1):
        assert len(frame.pcm) == 2 * FRAME_SAMPLES
        assert math.isclose(frame.end_s, number * FRAME_S)
