"""Sound comes back as it was heard."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.errors import StoreFailed
from handsfree.keep.recorder import Clips
from handsfree.signals import SAMPLE_RATE

TONE = (np.sin(np.arange(SAMPLE_RATE * 3) * 2 * np.pi * 440 / SAMPLE_RATE) * 8000).astype("<i2")


def test_a_clip_is_kept_small_and_sounds_the_same(tmp_path: Path) -> None:
    """Three seconds come back whole, alike and in an eighth of the room; no half file is left."""
    place = Clips(tmp_path).keep("one", "0007", TONE.tobytes())
    heard, rate = soundfile.read(tmp_path / place, dtype="int16")

    assert place == "sound/one/0007.ogg"
    assert (len(TONE), SAMPLE_RATE) == (len(heard), rate)
    assert np.corrcoef(TONE, heard)[0, 1] > 0.99
    assert (tmp_path / place).stat().st_size < TONE.nbytes / 8
    assert [file.name for file in (tmp_path / place).parent.iterdir()] == ["0007.ogg"]


def test_a_folder_that_is_none_is_told(tmp_path: Path) -> None:
    """A clip that can't be kept is one sentence."""
    (tmp_path / "sound").write_text("in the way")

    with pytest.raises(StoreFailed, match="can't be kept"):
        Clips(tmp_path).keep("one", "0007", TONE.tobytes())
