"""`handsfree check`: a line for each part, and whether a session can be run."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from handsfree.cli.parts import (
    EARS,
    GRAMMARS,
    MICROPHONE,
    SESSIONS,
    SETTINGS,
    Finding,
    can_run,
    findings,
    heard_by,
)
from handsfree.errors import SoundError
from handsfree.hear.microphone import Microphone
from handsfree.say.voices.chimes import sounded
from handsfree.signals import Chime
from handsfree.testing.sound_device import FakeSoundDevice, Sound
from tests.cli.conftest import Command, speech
from tests.hear.sound import Sound as Samples
from tests.hear.sound import noise, silence

PARTS = [*EARS, "Microphone", "Loudspeaker", "Synthesiser", SETTINGS, GRAMMARS, SESSIONS]


@pytest.fixture(autouse=True)
def _machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, no_model: None) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


def test_pip_alone_can_run_a_session(handsfree: Command) -> None:
    """PocketSphinx, the synthesiser, the grammars and a folder: status 0, a line for each part."""
    ran = handsfree("check", "--json")
    told = {one["part"]: one for one in map(json.loads, ran.lines)}
    assert (ran.status, ran.err) == (0, "")
    assert list(told) == PARTS
    assert [told[part]["works"] for part in (EARS[0], "Synthesiser", GRAMMARS, SESSIONS)] == [True] * 4
    assert told[EARS[1]]["wrong"].endswith("handsfree model get")


def test_a_folder_that_cannot_be_written_is_told(
    handsfree: Command, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Status 1: all parts are told, and one line says that no session can be run."""
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "file"))
    ran = handsfree("check")
    assert (ran.status, len(ran.lines)) == (1, len(PARTS))
    assert not ran.lines[-1].endswith("works")
    assert ran.complaints == [
        "No session can be run on this machine. Do what stands beside the parts that do not work."
    ]


def test_a_microphone_tells_what_it_hears() -> None:
    """The loudest sound of a second, so that the user sees that it hears; a mute one is refused."""
    hiss, muted = (
        Microphone(sounddevice=FakeSoundDevice(Sound(sound.astype(float))))
        for sound in (noise(1.1, -60.0), silence(1.1))
    )

    assert heard_by(hiss).startswith(("hears -60 dB", "hears -59 dB"))
    with pytest.raises(SoundError, match="no sound at all"):
        heard_by(muted)


@pytest.mark.parametrize(
    ("sound", "works", "told"),
    [
        (silence(0.5), False, "No speech was heard."),
        (speech("what can i say"), True, "understood “what can i say”; speech -"),
    ],
    ids=["nobody speaks", "one sentence"],
)
def test_in_a_terminal_one_sentence_is_tried(
    monkeypatch: pytest.MonkeyPatch, sound: Samples, works: bool, told: str
) -> None:
    """As at the first run: what was understood, how loud speech and room are, and what is wrong."""
    room = noise(9.0, -65.0).astype(float)
    room[8000 : 8000 + len(sound)] += sound
    microphone = Microphone(sounddevice=FakeSoundDevice(Sound(room)))
    monkeypatch.setattr("handsfree.hear.microphone.Microphone", lambda: microphone)
    found = next(one for one in findings(asks=True) if one.part == MICROPHONE)

    assert works is found.works
    assert told in found.tells + found.wrong


@pytest.mark.parametrize(
    ("working", "can"),
    [
        ([EARS[0], GRAMMARS, SESSIONS], True),
        ([EARS[1], GRAMMARS, SESSIONS], True),
        ([GRAMMARS, SESSIONS, "Microphone", "Loudspeaker"], False),
        ([*EARS, GRAMMARS], False),
        ([*EARS, SESSIONS], False),
    ],
)
def test_what_a_session_needs(working: list[str], can: bool) -> None:
    """An ear, the grammars and a place to keep the record; sound devices can be replaced."""
    assert can_run([Finding(part, part in working) for part in PARTS]) == can


def test_each_short_sound_can_be_heard(handsfree: Command, tmp_path: Path) -> None:
    """After its name, one behind the other: the samples of each stand in the file in that order."""
    ran = handsfree("check", "--sounds", "--speak-to", str(tmp_path / "sounds.wav"))
    heard = (tmp_path / "sounds.wav").read_bytes()
    places = [heard.find(sounded(chime).samples) for chime in Chime]

    assert (0, "") == (ran.status, ran.err)
    assert -1 not in places
    assert sorted(places) == places
