"""Sound that is kept: one small file for each utterance."""

from __future__ import annotations

from pathlib import Path

from handsfree.errors import StoreFailed
from handsfree.keep.folder import made
from handsfree.signals import SAMPLE_RATE
from handsfree.whole_file import whole
from handsfree.words import worded


class Clips:
    """Keeps sound beside the journal, as Ogg Opus. folder: the sessions folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def keep(self, session: str, name: str, pcm: bytes) -> str:
        """Write one clip and return its path in the folder, `sound/<session>/<name>.ogg`.

        pcm: 16-bit little-endian, one channel, SAMPLE_RATE. Replaces a clip of that name. Raises StoreFailed.
        """
        import numpy as np
        import soundfile

        place = f"sound/{session}/{name}.ogg"
        file = self._folder / place
        try:
            made(file.parent)
            samples = np.frombuffer(pcm, dtype="<i2")
            with whole(file) as unfinished, unfinished.open("w+b") as disk:
                soundfile.write(disk, samples, SAMPLE_RATE, format="OGG", subtype="OPUS")
        except (OSError, soundfile.SoundFileError) as fault:
            raise StoreFailed(
                worded("The sound can't be kept in {file}: {fault}.", file=file, fault=fault),
                worded("Free some space, or give another --sessions."),
            ) from fault
        return place
