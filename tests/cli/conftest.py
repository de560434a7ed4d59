"""What the tests of the command line share: a run in the process, clips and grammars."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
import soundfile
import soxr

from handsfree.cli import run
from handsfree.hear.models import MODEL_VARIABLE
from handsfree.say.voices.pcm import SPEECH_RATE
from handsfree.say.voices.synthesis import synthesise
from handsfree.signals import SAMPLE_RATE
from tests.hear.sound import Sound, silence

GRAMMAR = """#JSGF V1.0;
grammar drops;
import <count.number>;
public <where> = where am i;
public <drops> = <number> [and <number>] drops;
"""
COUNT = "#JSGF V1.0;\ngrammar count;\npublic <number> = fifteen | twenty | sixty;\n"


@dataclass(frozen=True)
class Ran:
    """What a command left behind."""

    status: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        return self.out.splitlines()

    @property
    def complaints(self) -> list[str]:
        return self.err.splitlines()


Command = Callable[..., Ran]


@pytest.fixture
def handsfree(capsys: pytest.CaptureFixture[str]) -> Command:
    """Run `handsfree` in this process with the given words."""

    def command(*arguments: object) -> Ran:
        status = run([str(argument) for argument in arguments])
        return Ran(status, *capsys.readouterr())

    return command


@pytest.fixture
def no_model(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A machine whose cache folder is empty."""
    monkeypatch.delenv(MODEL_VARIABLE, raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "no cache"))


@pytest.fixture
def grammar(tmp_path: Path) -> Path:
    """A grammar file with an import beside it."""
    (tmp_path / "count.jsgf").write_text(COUNT)
    file = tmp_path / "drops.jsgf"
    file.write_text(GRAMMAR)
    return file


def speech(text: str) -> Sound:
    """Speak one sentence, without the silence around it."""
    samples = np.frombuffer(synthesise(text, "en-us", 150).samples, "<i2").astype(np.float32) / 32768
    sound = soxr.resample(samples, SPEECH_RATE, SAMPLE_RATE)
    loud = np.flatnonzero(np.abs(sound) > 0.01)
    return np.asarray(sound[loud[0] : loud[-1] + 1], np.float32)


def clip(file: Path, *sounds: Sound) -> Path:
    """Write sounds, one after the other, with a little silence around them."""
    soundfile.write(file, np.concatenate([silence(0.3), *sounds, silence(0.1)]), SAMPLE_RATE)
    return file


def spoken(file: Path, *sentences: str) -> Path:
    """Write sentences with a pause between them that ends the first, whatever might follow it."""
    return clip(file, *(sound for one in sentences for sound in (speech(one), silence(2.0))))
