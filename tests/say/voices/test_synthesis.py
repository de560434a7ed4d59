"""Synthesis, in processes of its own where what it prints or loads is in question."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from handsfree.errors import PlaybackFailed
from handsfree.say.length import spoken_length_s
from handsfree.say.voices.pcm import SPEECH_RATE, Pcm, silence
from handsfree.say.voices.spoken import DEFAULT_RATE_WPM, DEFAULT_VOICE
from handsfree.say.voices.synthesis import synthesise

SENTENCE = "Set forty two drops a minute, four two."
SENTENCES = [
    SENTENCE,
    "One hundred twenty five millilitres an hour, one two five.",
    "Is that correct?",
    "The tourniquet has been on for two minutes.",
    "Clean the skin for thirty seconds.",
    "Zero point nine percent saline, March twenty twenty eight.",
    "One drop every one point four seconds, eleven drops in fifteen seconds.",
]


def _spoken(text: str) -> Pcm:
    return synthesise(text, DEFAULT_VOICE, DEFAULT_RATE_WPM)


@pytest.mark.parametrize("text", SENTENCES)
def test_speech_is_loud_and_not_clipped(text: str) -> None:
    """The loudest sample uses at least half the range and never all of it."""
    peak = np.abs(np.frombuffer(_spoken(text).samples, "<i2").astype(int)).max()

    assert 16_384 < peak < 32_767


@pytest.mark.parametrize("text", SENTENCES)
def test_the_formula_is_about_as_long_as_speech(text: str) -> None:
    """A simulated sentence lasts about as long as a spoken one: within a quarter or half a second."""
    assert pytest.approx(_spoken(text).length_s, rel=0.25, abs=0.5) == spoken_length_s(text)


def test_long_and_short_in_turn() -> None:
    """No sentence takes from the next: each is whole, in whatever order, again and again."""
    texts = ["drop " * 400, "Stop.", SENTENCE]
    rates = range(DEFAULT_RATE_WPM + 1, DEFAULT_RATE_WPM + 6)
    lengths_s = [[synthesise(text, DEFAULT_VOICE, rate).length_s for text in texts] for rate in rates]

    assert [sorted(turn) for turn in lengths_s] == [
        [stop, four_two, drops] for drops, stop, four_two in lengths_s
    ]
    assert all(drops > 60 and stop > 0.3 and four_two > 2 for drops, stop, four_two in lengths_s)


@pytest.mark.parametrize("text", ["", " ", "...", "\0", "<b>", "[[a]]", "😀", "Größe"])
def test_odd_sentences_do_no_harm(text: str) -> None:
    """Whatever a checklist of the user's own holds, the next sentence is whole."""
    _spoken(text)

    assert synthesise(SENTENCE, DEFAULT_VOICE, DEFAULT_RATE_WPM).length_s > 2


def test_a_voice_that_is_none() -> None:
    """A wrong voice is told in words, and the next sentence is whole."""
    with pytest.raises(PlaybackFailed, match="nobody"):
        synthesise(SENTENCE, "nobody", DEFAULT_RATE_WPM)

    assert synthesise(SENTENCE, "en", DEFAULT_RATE_WPM).length_s > 2


def test_silence_lasts() -> None:
    """A silence is as long as asked for."""
    assert pytest.approx(0.4) == silence(0.4).length_s
    assert not any(silence(0.4).samples)


def _run(code: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code], check=False, text=True, capture_output=True, env=environment or None
    )


def test_synthesis_prints_nothing() -> None:
    """Standard output is for data; not a byte comes from the synthesiser."""
    done = _run(
        f"from handsfree.say.voices.synthesis import synthesise; synthesise({SENTENCE!r}, 'en-us', 150)"
    )

    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


DEEP = """
import espeakng_loader
from handsfree.say.voices.synthesis import synthesise

print(len(espeakng_loader.get_data_path()) > 160, synthesise("Set it.", "en-us", 150).length_s > 0.3)
"""


def test_data_that_lie_deep(tmp_path: Path) -> None:
    """A long path to the data does not end the program; the link to it goes with the program."""
    import espeakng_loader

    deep = tmp_path.joinpath(*3 * ["d" * 60])
    shutil.copytree(Path(espeakng_loader.__file__).parent, deep / "espeakng_loader")
    short = tmp_path / "t"
    short.mkdir()

    done = _run(DEEP, PYTHONPATH=str(deep), TMPDIR=str(short))

    assert (done.returncode, done.stdout) == (0, "True True\n"), done.stderr
    assert list(short.iterdir()) == []


def test_data_that_are_missing(tmp_path: Path) -> None:
    """A broken installation is told in words; espeak itself would end the program."""
    (tmp_path / "espeakng_loader").mkdir()
    (tmp_path / "espeakng_loader" / "__init__.py").write_text(
        "def get_library_path(): return 'libm.so.6'\ndef get_data_path(): return '/nowhere'\n"
    )
    code = "from handsfree.say.voices.synthesis import synthesise; synthesise('a', 'en-us', 150)"

    done = _run(code, PYTHONPATH=str(tmp_path))

    assert "PlaybackFailed: The synthesiser's data is not in /nowhere." in done.stderr


@pytest.mark.parametrize("module", ["numbers", "quantities", "calendar", "length"])
def test_words_load_nothing_heavy(module: str) -> None:
    """Numbers are said without a synthesiser, sound or numpy."""
    heavy = {"numpy", "pyttsx3", "soundfile", "sounddevice", "soxr", "pint"}
    done = _run(f"import sys, handsfree.say.{module}; print(*sys.modules)")

    assert set() == heavy & set(done.stdout.split())


@pytest.mark.vosk
def test_a_recogniser_hears_the_rate(vosk_model: Path) -> None:
    """What is said is understood by a stranger: an ear that may hear any number of drops hears this one."""
    import soxr
    import vosk

    from handsfree.say.quantities import quantity

    vosk.SetLogLevel(-1)
    phrases = [f"set {quantity(count, 'gtt/min')}" for count in range(2, 200)]
    sound = np.frombuffer(silence(0.3).samples + _spoken(SENTENCE).samples + silence(0.5).samples, "<i2")
    ear = vosk.KaldiRecognizer(
        vosk.Model(str(vosk_model)), 16_000, json.dumps([*phrases, "four two", "[unk]"])
    )
    ear.AcceptWaveform(soxr.resample(sound, SPEECH_RATE, 16_000).tobytes())

    assert "forty two drops a minute" in json.loads(ear.FinalResult())["text"]
