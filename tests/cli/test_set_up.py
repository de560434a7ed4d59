"""The first run: what it asks, what it keeps, and where it asks nothing."""

from __future__ import annotations

import io
import os
import re
import sys
import tomllib
from pathlib import Path

import numpy as np
import pytest

from handsfree.cli.set_up import set_up
from handsfree.hear.microphone import Microphone
from handsfree.settings import read_settings, settings_file, write_settings
from handsfree.testing.sound_device import FakeSoundDevice
from handsfree.testing.sound_device import Sound as Played
from tests.cli.conftest import Command, speech
from tests.hear.sound import Sound, noise, silence
from tests.house.documents import marked_blocks
from tests.terminal import in_terminal

pytestmark = pytest.mark.usefixtures("no_model")

ROOM_DB = -65.0


def said(*sounds: Sound) -> Microphone:
    """A microphone in a quiet room."""
    sound = np.concatenate([silence(0.7), *sounds, silence(8.5)]).astype(float)
    room = noise(30.0, ROOM_DB)[: len(sound)]
    return Microphone(sounddevice=FakeSoundDevice(Played(sound + room)))


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> None:
    """The keyboard: no model now, no second try, a headset."""
    monkeypatch.setattr(sys, "stdin", io.StringIO("n\ny\n"))


def _written(text: str) -> str:
    """Without what the user typed, levels, the place of the file, and how lines are broken."""
    text = re.sub(r"(\[[Yy]/[Nn]\]:) [yn]\n", r"\1", text)
    return "".join(re.sub(r"-\d+ dB|Kept in \S+", "", text).split())


@pytest.mark.usefixtures("answers")
def test_it_is_as_the_page_shows(capsys: pytest.CaptureFixture[str]) -> None:
    """docs/first-session.md prints it whole, with its answers."""
    set_up(said(speech("what can i say")), None)
    shown = next(one.text for one in marked_blocks("docs/first-session.md") if "microphone" in one.mark)

    assert _written(shown.removeprefix("$ handsfree guide\n")) == _written(capsys.readouterr().err)


@pytest.mark.usefixtures("answers")
def test_a_good_microphone(capsys: pytest.CaptureFixture[str]) -> None:
    """Cautions, the better ear, one sentence, headset: on standard error alone, and kept with comments."""
    found = set_up(said(speech("what can i say")), None)
    out, err = capsys.readouterr()

    parts = ("Not a medical device", "model get", "understood “what can i say”; speech -", "headset")
    assert ("", []) == (out, [part for part in parts if part not in err])
    assert found == read_settings()
    assert True is found["headset"]
    assert settings_file().read_text("utf-8").startswith("# Settings")


def test_a_weak_microphone_is_told_and_the_session_goes_on(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No second try: what was wrong stands there, and no level is kept that would be wrong."""
    monkeypatch.setattr(sys, "stdin", io.StringIO("n\nn\nn\n"))
    found = set_up(Microphone(sounddevice=FakeSoundDevice(Played(noise(9.0, -75.0).astype(float)))), None)

    assert {"headset": False, "speech_level": None} == found
    assert "No speech was heard." in capsys.readouterr().err
    assert {"headset": False} == read_settings()


@pytest.mark.usefixtures("answers")
def test_settings_that_cannot_be_written(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence, and they hold for this session."""
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "file"))

    assert True is set_up(said(speech("what can i say")), None)["headset"]
    assert "cannot be kept" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("level", "expected"), [(-41, {"headset": True, "speech_level": -41}), (None, {"headset": True})]
)
def test_what_is_written_is_read(level: int | None, expected: dict[str, object]) -> None:
    """The file is TOML, and what is not known stands in it as a comment."""
    assert expected == tomllib.loads(write_settings(True, level).read_text("utf-8"))


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("headset = ", "cannot be read"),
        ("sessions = 5", "sessions: 5 is of no kind that it takes. See: handsfree guide --help"),
        ("headset = []", "headset: [] is of no kind"),
        ("dance = true", "there is no option dance. See: handsfree guide --help"),
        ("sign_after = -3", "sign_after: -3 is not in the range x>=0."),
        ('ear = "left"', "ear: 'left' is not one of 'vosk', 'sphinx', 'typed'."),
    ],
)
def test_settings_that_mean_nothing_are_refused(handsfree: Command, text: str, complaint: str) -> None:
    """One line that names the file, whatever is wrong in it."""
    write_settings(True, None).write_text(text)
    ran = handsfree("guide", "--ear", "typed")

    assert (2, "", 1) == (ran.status, ran.out, len(ran.complaints))
    assert complaint in ran.err
    assert str(settings_file()) in ran.err


def test_an_option_goes_before_a_setting(
    handsfree: Command, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The call word of the settings holds, until another one is given."""
    write_settings(True, None).write_text('call_word = "nobody"\near = "typed"\n')
    heard = []
    for option in ((), ("--call-word", "helper")):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"helper where am i\n")))
        heard.append("Phase one" in handsfree("guide", "--sessions", tmp_path, *option).out)

    assert [False, True] == heard


def test_without_a_microphone_nothing_is_asked(tmp_path: Path) -> None:
    """In a terminal too: one sentence, whether CI is set or not."""
    here = {name: value for name, value in os.environ.items() if name != "CI"}
    for environment in (here, here | {"CI": "true"}):
        command = (sys.executable, "-m", "handsfree", "guide", "--sessions", str(tmp_path))
        status, seen = in_terminal(*command, environment=environment)

        assert (3, 1) == (status, len(seen.splitlines()))
        assert seen.endswith("or use the keyboard: --ear typed.\n")
