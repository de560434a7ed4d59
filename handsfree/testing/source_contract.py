"""What every source keeps to."""

from __future__ import annotations

import math
from itertools import islice

from handsfree.ports import Source
from handsfree.signals import FRAME_S, FRAME_SAMPLES


def check_frames(source: Source, at_least: int) -> None:
    """Frames have one size, their time is their number, and each tells how it was taken; `at_least` come."""
    frames = list(islice(source.frames(), at_least))
    assert len(frames) == at_least
    for number, frame in enumerate(frames, start=1):
        assert len(frame.pcm) == 2 * FRAME_SAMPLES
        assert math.isclose(frame.end_s, number * FRAME_S)
        assert math.isfinite(frame.taken.level_db)
        assert 0 <= frame.taken.clipped <= 1
