"""Every voice keeps to the one contract."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest

from handsfree.ports import Voice
from handsfree.say.voices.both import BothVoices
from handsfree.say.voices.loudspeaker import Loudspeaker
from handsfree.say.voices.printed import PrintedVoice
from handsfree.say.voices.speech_file import SpeechFile
from handsfree.say.voices.spoken import SpokenVoice
from handsfree.testing.voice import CHECKS, FakeOutput, FakeVoice

VOICES: dict[str, Callable[[Path], Voice]] = {
    "printed": lambda folder: PrintedVoice(io.StringIO()),
    "wav": lambda folder: SpokenVoice(SpeechFile(folder / "speech.wav")),
    "flac": lambda folder: SpokenVoice(SpeechFile(folder / "speech.flac")),
    "ogg": lambda folder: SpokenVoice(SpeechFile(folder / "speech.ogg")),
    "loudspeaker": lambda folder: SpokenVoice(Loudspeaker(FakeOutput())),
    "loudspeaker at its own rate": lambda folder: SpokenVoice(Loudspeaker(FakeOutput(48_000))),
    "both": lambda folder: BothVoices(PrintedVoice(io.StringIO()), FakeVoice()),
    "fake": lambda folder: FakeVoice(),
}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize("make", VOICES.values(), ids=list(VOICES))
def test_contract(make: Callable[[Path], Voice], check: Callable[[Voice], None], tmp_path: Path) -> None:
    """Each check holds for each voice."""
    check(make(tmp_path))
