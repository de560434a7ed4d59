"""Cue points inside a WAV, as audio editors show them.

Multimedia Programming Interface and Data Specifications 1.0 (IBM and Microsoft, August 1991), "Waveform Audio
File Format": the chunks `cue ` and, for its names, `LIST` of type `adtl` with one `labl` each.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from struct import pack

from handsfree.errors import SoundError
from handsfree.words import worded

_RIFF_HEADER = 8
"""The name RIFF and a length: of all that comes after them."""


@dataclass(frozen=True, slots=True)
class CuePoint:
    """A named moment. sample: how many samples of each channel come before it."""

    sample: int
    label: str


def add_cue_points(wav: Path, points: Sequence[CuePoint]) -> None:
    """Add cue points behind the sound of a WAV that has none. Raises SoundError for another file, OSError."""
    if not points:
        return
    with wav.open("r+b") as file:
        header = file.read(12)
        if header[:4] != b"RIFF" or header[8:] != b"WAVE":
            raise SoundError(worded("{file} is not a WAV file.", file=wav), worded("Export the sound again."))
        file.seek(0, os.SEEK_END)
        file.write(b"\0" * (file.tell() % 2) + _cue_chunk(points) + _label_list(points))
        length = file.tell() - _RIFF_HEADER
        file.seek(4)
        file.write(pack("<I", length))


def _cue_chunk(points: Iterable[CuePoint]) -> bytes:
    """For each point: its number, its place in the play order, in which chunk it lies, the starts of chunk
    and block (0 where there is one data chunk), and its sample in the block."""
    rows = [
        pack("<II4sIII", number, point.sample, b"data", 0, 0, point.sample)
        for number, point in enumerate(points, 1)
    ]
    return _chunk(b"cue ", pack("<I", len(rows)) + b"".join(rows))


def _label_list(points: Iterable[CuePoint]) -> bytes:
    labels = [
        _chunk(b"labl", pack("<I", number) + point.label.encode("utf-8") + b"\0")
        for number, point in enumerate(points, 1)
    ]
    return _chunk(b"LIST", b"adtl" + b"".join(labels))


def _chunk(name: bytes, data: bytes) -> bytes:
    """A name, the length, the data, and a byte more where their number is odd."""
    return name + pack("<I", len(data)) + data + b"\0" * (len(data) % 2)
