"""Speech into a sound file, one sentence after another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np
import soundfile
import soxr

from handsfree.errors import PlaybackFailed, WrongUse
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm, amplified
from handsfree.words import worded

GAP_S = 0.4
"""Silence after each sentence."""

_FLAC_BLOCK = 4096
"""Samples that libFLAC gathers before it writes them: less than the gap."""

_Fields = tuple[tuple[int, bytes], ...]


@dataclass(frozen=True, slots=True)
class _Kind:
    """How a file is written.

    length_fields: where the header holds the length, and what stands there after so many samples.
    rate: samples a second; Opus takes but a few, SPEECH_RATE is not among them (RFC 6716, section 2).
    """

    container: str
    subtype: str
    length_fields: Callable[[int], _Fields]
    rate: int = SPEECH_RATE


class SpeechFile:
    """Output to a WAV, FLAC or Ogg file, by the ending of its name; a file that was there is written over.

    Killed at any time, the file plays to the end of its last sentence; Ogg lacks about a second then.
    Raises WrongUse for another ending, PlaybackFailed where it cannot be written.
    """

    def __init__(self, path: Path) -> None:
        self._path, self._kind, self._written, self._gain = path, _kind(path), 0, 1.0
        with self._faults_named():
            self._file = soundfile.SoundFile(
                path, "w", self._kind.rate, 1, self._kind.subtype, format=self._kind.container
            )

    def play(self, pcm: Pcm) -> None:
        """Write one sentence and the gap after it, through to the disk. Raises PlaybackFailed."""
        rate = self._kind.rate
        speech = np.frombuffer(amplified(pcm.samples, self._gain), np.int16)
        if rate != SPEECH_RATE:
            speech = soxr.resample(speech, SPEECH_RATE, rate)
        sentence = np.concatenate([speech, np.zeros(round(GAP_S * rate), np.int16)])
        with self._faults_named():
            self._file.write(sentence)
            self._file.flush()
            self._written += len(sentence)
            self._tell_length()

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Do nothing: a file holds what was said, without the time between."""

    def amplify(self, gain: float) -> None:
        """Write what comes from now on so many times as strong."""
        self._gain = gain

    def hush(self) -> None:
        """Do nothing: what was given is written, and a file takes no time to play."""

    def close(self) -> None:
        """Finish the file. Raises PlaybackFailed."""
        with self._faults_named():
            self._file.close()

    def _tell_length(self) -> None:
        """Write the length into the header: libsndfile does so only when the file is closed."""
        with self._path.open("r+b") as header:
            for place, field in self._kind.length_fields(self._written):
                header.seek(place)
                header.write(field)

    @contextmanager
    def _faults_named(self) -> Iterator[None]:
        try:
            yield
        # soundfile asserts that all was written, and takes no name that is not UTF-8.
        except (OSError, AssertionError, UnicodeError, soundfile.SoundFileError) as fault:
            raise PlaybackFailed(
                worded("Speech cannot be written to {path}.", path=self._path),
                worded("Name a file in a folder that can be written and has room."),
            ) from fault


def _wav_length(samples: int) -> _Fields:
    """Sizes of the RIFF and data chunks in bytes, in a header of 44 bytes."""
    size = 2 * samples
    return (4, (36 + size).to_bytes(4, "little")), (40, size.to_bytes(4, "little"))


def _flac_length(samples: int) -> _Fields:
    """Total samples in STREAMINFO (RFC 9639, section 8.2), as far as whole blocks are written."""
    return ((22, (samples // _FLAC_BLOCK * _FLAC_BLOCK).to_bytes(4, "big")),)


def _no_length(_samples: int) -> _Fields:
    """Ogg tells no length in its header."""
    return ()


_KINDS = {
    ".wav": _Kind("WAV", "PCM_16", _wav_length),
    ".flac": _Kind("FLAC", "PCM_16", _flac_length),
    ".ogg": _Kind("OGG", "OPUS", _no_length, 24_000),
}


def _kind(path: Path) -> _Kind:
    kind = _KINDS.get(path.suffix.lower())
    if kind is None:
        raise WrongUse(
            worded("Speech cannot be written to {path}.", path=path),
            worded("Name a .wav, .flac or .ogg file."),
        )
    return kind
