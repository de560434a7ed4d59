"""Sound that was kept, read again: a part of it, and the whole of it for other programs.

A file that a kill cut short is sound up to there. Of one that is damaged inside, what can be read is read.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

from handsfree.errors import SoundError
from handsfree.words import worded

BLOCK_S = 10

_RESTORE = worded("Restore it from a copy.")


def clip(file: Path, from_s: float, to_s: float) -> bytes:
    """The sound between two moments, as Ogg Opus; less where the file begins or ends between them.

    Raises SoundError for a file that holds no sound, and for moments between which it has none.
    """
    import soundfile

    with opened(file) as sound:
        first = max(0, round(from_s * sound.samplerate))
        last = min(sound.frames, round(to_s * sound.samplerate))
        if first >= last:
            raise SoundError(
                worded(
                    "{file} has no sound from {from_s:.1f} s to {to_s:.1f} s.",
                    file=file,
                    from_s=from_s,
                    to_s=to_s,
                )
            )
        sound.seek(first)
        samples = sound.read(last - first, dtype="int16")
        cut = io.BytesIO()
        soundfile.write(cut, samples, sound.samplerate, format="OGG", subtype="OPUS")
    return cut.getvalue()


def write_wav(file: Path, wav: Path) -> int:
    """Write all of the sound as WAV, 16 bits; returns how many samples of each channel there are.

    Raises SoundError for a file that holds no sound, OSError.
    """
    import soundfile

    with (
        opened(file) as sound,
        wav.open("w+b") as disk,
        soundfile.SoundFile(
            disk, "w", sound.samplerate, sound.channels, format="WAV", subtype="PCM_16"
        ) as out,
    ):
        for block in sound.blocks(BLOCK_S * sound.samplerate, dtype="int16"):
            out.write(block)
        return int(out.frames)


@contextmanager
def opened(file: Path) -> Iterator[Any]:
    """A file that holds some sound. Raises SoundError: one sentence for each thing that may be wrong."""
    import soundfile

    if not file.is_file():
        raise SoundError(worded("There is no sound file {file}.", file=file), _RESTORE)
    if not file.stat().st_size:
        raise SoundError(worded("The sound file {file} is empty.", file=file), _RESTORE)
    with ExitStack() as held:
        stream = held.enter_context(file.open("rb"))
        try:
            sound = held.enter_context(soundfile.SoundFile(stream))
        except (soundfile.SoundFileError, TypeError) as wrong:
            # A headerless format is told by its name, and then asks for a rate: TypeError.
            raise SoundError(
                worded("{file} holds no sound that can be read.", file=file), _RESTORE
            ) from wrong
        if not sound.frames:
            raise SoundError(worded("{file} holds no sound.", file=file), _RESTORE)
        try:
            yield sound
        except soundfile.SoundFileError as wrong:
            raise SoundError(worded("{file} is damaged.", file=file), _RESTORE) from wrong
