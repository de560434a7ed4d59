"""Speech in a file: every sentence, whatever ends the program."""

from __future__ import annotations

import signal
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.errors import PlaybackFailed, WrongUse
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.say.voices.speech_file import GAP_S, SpeechFile

ENDINGS = [".wav", ".flac", ".ogg"]
TONE = Pcm((8000 * np.sin(np.arange(SPEECH_RATE) / 10)).astype("<i2").tobytes())

KILLED = """
import os, signal, sys
from pathlib import Path
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm
from handsfree.say.voices.speech_file import SpeechFile

file = SpeechFile(Path(sys.argv[1]))
for _ in range(8):
    file.play(Pcm(b"\\x00\\x10" * SPEECH_RATE))
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.parametrize("ending", [*ENDINGS, ".WAV"])
def test_sentences_stand_one_after_the_other(tmp_path: Path, ending: str) -> None:
    """A closed file holds each sentence and the gap behind it."""
    path = tmp_path / f"speech{ending}"
    with closing(SpeechFile(path)) as file:
        file.play(TONE)
        file.play(TONE)

    samples, rate = soundfile.read(path)
    second = samples[round((1 + GAP_S) * rate) : round((2 + GAP_S) * rate)]
    gap = samples[round(1.05 * rate) : round((1 + GAP_S - 0.05) * rate)]

    assert pytest.approx(2 * (1 + GAP_S), abs=0.05) == len(samples) / rate
    assert pytest.approx(8000 / 32768, rel=0.05) == np.abs(second).max()
    assert np.abs(gap).max() < 0.001


@pytest.mark.parametrize(("ending", "lost_s"), [(".wav", 0), (".flac", GAP_S), (".ogg", 1.5)])
def test_a_killed_program_leaves_a_file_that_plays(tmp_path: Path, ending: str, lost_s: float) -> None:
    """After kill -9 the last sentence is there; Ogg, which is written by pages, may lack about a second."""
    path = tmp_path / f"speech{ending}"

    done = subprocess.run([sys.executable, "-c", KILLED, path], check=False)

    assert done.returncode == -signal.SIGKILL
    assert soundfile.info(path).duration >= 8 * (1 + GAP_S) - lost_s


@pytest.mark.parametrize("name", ["speech.mp3", "speech", ".wav"])
def test_an_ending_that_is_none(tmp_path: Path, name: str) -> None:
    """The user hears which endings there are, and no file is made."""
    with pytest.raises(WrongUse, match=r"Name a \.wav, \.flac or \.ogg file"):
        SpeechFile(tmp_path / name)

    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_place_that_cannot_be_written(tmp_path: Path, ending: str) -> None:
    """A missing folder is told before the session begins."""
    with pytest.raises(PlaybackFailed, match="Name a file in a folder"):
        SpeechFile(tmp_path / "nowhere" / f"speech{ending}")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no full device")
@pytest.mark.parametrize("ending", ENDINGS)
def test_a_full_disk(tmp_path: Path, ending: str) -> None:
    """A disk that fills up fails each sentence in words, however often it is tried."""
    path = tmp_path / f"speech{ending}"
    path.symlink_to("/dev/full")
    failures = []
    for _ in range(3):
        try:
            with closing(SpeechFile(path)) as file:
                for _ in range(20):
                    file.play(TONE)
        except PlaybackFailed as failed:
            failures.append(failed.wrong)

    assert 3 * [f"Speech cannot be written to {path}."] == failures


def test_no_sentence(tmp_path: Path) -> None:
    """A session in which nothing was said leaves an empty file."""
    path = tmp_path / "speech.wav"
    SpeechFile(path).close()

    assert soundfile.info(path).frames == 0
