"""Recordings of people that Debian packages: where they lie, what is said in them, under which licence."""

from __future__ import annotations

import gzip
import re
import subprocess
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from pathlib import Path

import numpy as np
import soundfile
import soxr
from numpy.typing import NDArray

from handsfree.signals import SAMPLE_RATE
from tests.voice.noises import Sound

_PROMPTS = Path("/usr/share/asterisk/sounds")
_PROMPT_TEXTS = Path("/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz")
_SPHINX = Path("/usr/share/pocketsphinx/test/data")
_STAMPS = Path("/usr/share/tuxpaint/stamps/animals")

FOREIGN = {"fr": "fr_CA_f_June", "es": "es_MX_f_Allison", "it": "it_IT_m_Carlo", "ru": "ru_RU_f_IvrvoiceRU"}
"""Folder of the prompts in another language, named after the speaker."""

_AT_ONCE = 50
"""Files open in one decoding process."""

_FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

_NAMES = {
    **{str(value): name for value, name in enumerate(_FIGURES)},
    **{"*": "star", "#": "pound", "3d": "three d", "a.m": "a m", "p.m": "p m", "xray": "x ray"},
    **{"de-activated": "deactivated", "call-forward": "call forward"},
}
"""How a written word is said, where the two differ."""

_HEARD = {
    "goforward.raw": "go forward ten meters",
    "tidigits/dhd.2934z.raw": "two nine three four zero",
}
"""Recordings of the recogniser's own tests that come without a text of their own."""


@dataclass(frozen=True, slots=True)
class Recording:
    """What one person said. text: as it is written, empty if not known or not English."""

    voice: str
    package: str
    licence: str
    name: str
    text: str
    sound: Sound

    @property
    def words(self) -> str:
        """The words as they are spoken, without stops."""
        return _spoken(self.text)

    @property
    def sentences(self) -> tuple[str, ...]:
        """The words of each of its sentences."""
        return tuple(_spoken(part) for part in re.split(r"[.!?,;:]+\s+", self.text))


def _spoken(text: str) -> str:
    words = re.sub(r"\[[^\]]*\]|\([^)]*\)", "", text.casefold()).replace("...", " ").split()
    written = (word.strip(".,!?;:…'\"") for word in words)
    return " ".join(_NAMES.get(word, word) for word in written if word)


def prompts() -> tuple[Recording, ...]:
    """Every English prompt with words in it, by Allison Smith."""
    lines = gzip.decompress(_PROMPT_TEXTS.read_bytes()).decode().splitlines()
    texts = {name: text.strip() for name, _, text in (line.partition(":") for line in lines)}
    return tuple(
        one
        for one in _prompts("en", "en_US_f_Allison", texts)
        if one.words and not re.match("silence|beep|confbridge-(join|leave)$|tt-monkeys$", one.name)
    )


def foreign(language: str) -> tuple[Recording, ...]:
    """Every prompt in another language of FOREIGN."""
    return tuple(one for one in _prompts(language, FOREIGN[language], {}) if "silence" not in one.name)


def _prompts(language: str, folder: str, texts: dict[str, str]) -> Iterator[Recording]:
    files = sorted((_PROMPTS / folder).rglob("*.g722"))
    package = f"asterisk-core-sounds-{language}-g722"
    licence = "CC-BY-3.0" if language == "ru" else "CC-BY-SA-3.0"
    for file, sound in zip(files, _unpacked(files), strict=True):
        name = file.relative_to(_PROMPTS / folder).with_suffix("").as_posix()
        yield Recording(folder.rpartition("_")[2], package, licence, name, texts.get(name, ""), sound)


def _unpacked(files: Sequence[Path]) -> Iterator[Sound]:
    """Each through a decoder of its own, for it adapts to what it hears; many in one process."""
    for start in range(0, len(files), _AT_ONCE):
        some = files[start : start + _AT_ONCE]
        samples = _sound(np.frombuffer(_decoded(some), "<i2"))
        edges = accumulate((2 * file.stat().st_size for file in some), initial=0)  # two samples a byte
        for first, last in pairwise(edges):
            yield samples[first:last]


def _decoded(files: Sequence[Path]) -> bytes:
    given = [word for file in files for word in ("-f", "g722", "-i", str(file))]
    in_turn = f"concat=n={len(files)}:v=0:a=1"
    command = ["ffmpeg", "-v", "error", *given, "-filter_complex", in_turn, "-f", "s16le", "-"]
    return subprocess.run(command, capture_output=True, check=True).stdout


def _sound(samples: NDArray[np.int16]) -> Sound:
    return (samples / 32768).astype(np.float32)


def sphinx_commands() -> tuple[Recording, ...]:
    """Cards, a step of a machine and five figures, each by another person."""
    cards = re.findall(r"<s> (.*?) +</s> \((\d+)\)", (_SPHINX / "cards/cards.transcription").read_text())
    spoken = {f"cards/{name}.wav": text for text, name in cards} | _HEARD
    return tuple(_of_sphinx(name, text) for name, text in spoken.items())


def sphinx_prose() -> tuple[Recording, ...]:
    """Sentences read from a novel."""
    return tuple(_of_sphinx(f"librivox/{file.name}", "") for file in sorted(_SPHINX.glob("librivox/*.wav")))


def _of_sphinx(name: str, text: str) -> Recording:
    file = _SPHINX / name
    sound = _sound(np.fromfile(file, "<i2")) if file.suffix == ".raw" else _read(file)
    voice = name.partition("/")[0].removesuffix(".raw")
    return Recording(voice, "pocketsphinx-testdata", "BSD-2-Clause", name, text, sound)


def stamps() -> tuple[Recording, ...]:
    """Names of animals by several people: `_desc.ogg` without a language is the English one."""
    return tuple(
        Recording(
            "stamps", "tuxpaint-stamps-default", "GPL-2", file.stem, text.strip().casefold(), _read(file)
        )
        for file, text in _described(sorted(_STAMPS.rglob("*_desc.ogg")))
    )


def _described(files: Iterable[Path]) -> Iterator[tuple[Path, str]]:
    for file in files:
        label = file.with_name(file.name.replace("_desc.ogg", ".txt"))
        if label.exists():
            yield file, label.read_text().splitlines()[0].replace("mountaingoat", "mountain goat")


def _read(file: Path) -> Sound:
    sound, rate = soundfile.read(file, dtype="float32", always_2d=True)
    return np.asarray(soxr.resample(sound.mean(axis=1), rate, SAMPLE_RATE), np.float32)
