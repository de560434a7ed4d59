"""A recording as a source of sound: WAV, FLAC, Ogg, any rate and sample format, any number of channels."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

import soundfile

from handsfree.errors import SoundError
from handsfree.hear.framing import HIGHEST_RATE, LOWEST_RATE, Framer
from handsfree.signals import Frame
from handsfree.words import worded

_BLOCK_SAMPLES = 8192

_RECORD_AGAIN = worded("Give a WAV, FLAC or Ogg file.")


class Recording:
    """Source over a file. Looked at when made; raises SoundError for what is not whole sound.

    whole: what is cut short is refused, too; else it is heard as far as it goes. length_s: as the file says.
    """

    def __init__(self, path: Path, *, whole: bool = True) -> None:
        self._path = path
        with self._opened() as file:
            if file.frames == 0:
                raise SoundError(worded("{path} holds no sound.", path=path), worded("Record it again."))
            if not LOWEST_RATE <= file.samplerate <= HIGHEST_RATE:
                raise SoundError(
                    worded("{path} has {rate_hz} samples a second.", path=path, rate_hz=file.samplerate),
                    worded("Record at 16000."),
                )
            if whole and _is_cut_short(path, file):
                raise SoundError(
                    worded("{path} is cut short.", path=path),
                    worded("Copy it again, or convert what is left of it."),
                )
            self.length_s: float = file.frames / file.samplerate

    def frames(self) -> Iterator[Frame]:
        """Yield the recording's frames, from its start. Raises SoundError where it is damaged."""
        with self._opened() as file:
            framer = Framer(file.samplerate, file.channels)
            try:
                # Not `blocks`, which wants to seek: some formats can't.
                while len(block := file.read(_BLOCK_SAMPLES, dtype="float32", always_2d=True)):
                    yield from framer.cut(block)
            except soundfile.LibsndfileError as wrong:
                raise SoundError(worded("{path} is damaged.", path=self._path), _RECORD_AGAIN) from wrong
            yield from framer.cut(block, last=True)

    @contextmanager
    def _opened(self) -> Iterator[soundfile.SoundFile]:
        """Opened by us: libsndfile takes no name that is not UTF-8."""
        with _readable(self._path) as stream:
            try:
                file = soundfile.SoundFile(stream)
            except (soundfile.LibsndfileError, TypeError) as wrong:
                # A headerless format is told by its name, and then asks for a rate: TypeError.
                raise SoundError(
                    worded("{path} is not a sound file that can be read.", path=self._path), _RECORD_AGAIN
                ) from wrong
            with file:
                yield file


def _readable(path: Path) -> BinaryIO:
    """The open file, at its start. Raises SoundError where there is nothing in it to be read."""
    try:
        file = path.open("rb")
        if not file.peek(1):
            file.close()
            raise SoundError(worded("{path} is empty.", path=path), worded("Record it again."))
    except FileNotFoundError as wrong:
        raise SoundError(worded("There is no file {path}.", path=path), worded("Check its name.")) from wrong
    except IsADirectoryError as wrong:
        raise SoundError(worded("{path} is a folder.", path=path), _RECORD_AGAIN) from wrong
    except OSError as wrong:
        raise SoundError(
            worded("{path} cannot be read: {why}.", path=path, why=wrong.strerror),
            worded("Check who may read it."),
        ) from wrong
    return file


def _is_cut_short(path: Path, file: soundfile.SoundFile) -> bool:
    match file.format:
        case "WAV" | "WAVEX":
            return _wav_is_cut_short(path)
        case "OGG":
            return not _ogg_is_ended(path)
        case _:
            return not _last_sample_is_there(file)


def _wav_is_cut_short(path: Path) -> bool:
    """Compare the length that the header promises with the file's own.

    Resource Interchange File Format: chunks of a name, a little-endian length and as many bytes, padded to
    even.
    """
    size = path.stat().st_size
    with path.open("rb") as file:
        file.seek(12)
        while len(header := file.read(8)) == 8:
            length = int.from_bytes(header[4:], "little")
            if header[:4] == b"data":
                # Written to a pipe, a header cannot know: programs put the largest number, or none.
                return 0 < length < 0x7FFF_F000 and file.tell() + length > size
            file.seek(length + length % 2, 1)
    return True


def _ogg_is_ended(path: Path) -> bool:
    """Tell whether the last page is whole and says that it is the last.

    RFC 3533, section 6: a page begins with `OggS`; byte 5 has flags, of which 4 ends the stream; byte 26
    counts the segments, whose lengths follow, a byte each, then the segments.
    """
    largest_page = 65_307
    with path.open("rb") as file:
        file.seek(max(0, path.stat().st_size - largest_page))
        tail = file.read()
    page = tail[max(0, tail.rfind(b"OggS")) :]
    if len(page) < 27:
        return False
    lengths = page[27 : 27 + page[26]]
    return bool(page[5] & 4) and len(page) >= 27 + page[26] + sum(lengths)


def _last_sample_is_there(file: soundfile.SoundFile) -> bool:
    try:
        file.seek(file.frames - 1)
        return len(file.read(1)) == 1
    except soundfile.LibsndfileError:
        return False
