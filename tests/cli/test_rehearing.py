"""`handsfree debrief --rehear`: kept sound is heard again, and the page shows what is heard now."""

from __future__ import annotations

import re
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from handsfree.care import events as e
from handsfree.keep.journal import SqlJournal
from handsfree.record import Record, load
from handsfree.shelf import emergencies
from handsfree.testing.dialogue import SESSION
from tests.cli.conftest import Command, spoken
from tests.dialogues import told

FILE = f"sound/{SESSION}/soundtrack-1.ogg"


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """A session that understood one sentence, and whose sound, begun a minute before its end, has two."""
    folder = tmp_path / "sessions"
    talk = told("two identifiers", "+60")
    began = load(talk.journal, SESSION, emergencies()).records[0].at
    file = folder / FILE
    file.parent.mkdir(parents=True)
    spoken(file, "fifteen drops", "where am i")
    with closing(SqlJournal(folder)) as journal:
        journal.append(talk.journal.read(SESSION))
        record = Record(journal, SESSION, len(talk.journal.read(SESSION)))
        at = began + timedelta(seconds=30)
        record.keep([e.Recorded(at, e.SoundStarted(FILE, at))])
        record.keep([e.Recorded(at + timedelta(seconds=30), e.SessionEnded("input ended"))])
    return folder


def captions(page: Path) -> list[tuple[float, str, str]]:
    """Start, speaker and text of each line of what was heard."""
    line = r'<li data-start="([\d.]+)".*?<b>(.*?)</b> <span>(.*?)</span>'
    return [(float(start), who, text) for start, who, text in re.findall(line, page.read_text("utf-8"))]


def test_with_a_grammar(handsfree: Command, kept: Path, tmp_path: Path, grammar: Path) -> None:
    """What the grammar lets people say stands at its moment, instead of what was understood then."""
    out = tmp_path / "page.html"
    options = ("--ear", "sphinx", "--grammar", grammar, "--sessions", kept, "--out", out)
    made = handsfree("debrief", "last", "--rehear", *options)

    assert (0, "") == (made.status, made.err)
    again = [(start, text) for start, who, text in captions(out) if who == "Heard again"]
    assert ["fifteen drops", "where am i"] == [text for _, text in again]
    assert again[0][0] == pytest.approx(30.3, abs=0.3)
    assert [] == [text for _, who, text in captions(out) if who == "User"]
    assert "Heard again with sphinx, for drops.jsgf" in out.read_text("utf-8")


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
def test_with_what_the_session_let_people_say(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Without a grammar, commands and answers of all its moments are listened for."""
    out = tmp_path / "page.html"
    made = handsfree("debrief", "last", "--rehear", "--ear", "vosk", "--sessions", kept, "--out", out)

    assert 0 == made.status
    assert "where am i" in [text for _, who, text in captions(out) if who == "Heard again"]


def test_missing_sound(handsfree: Command, kept: Path, tmp_path: Path, grammar: Path) -> None:
    """There is nothing to hear again; the page says so."""
    (kept / FILE).unlink()
    out = tmp_path / "page.html"
    options = ("--ear", "sphinx", "--grammar", grammar, "--sessions", kept, "--out", out)
    assert 0 == handsfree("debrief", "last", "--rehear", *options).status
    assert f"The sound file {FILE} is missing or cannot be read." in out.read_text("utf-8")


@pytest.mark.parametrize("options", [("--ear", "sphinx"), ("--rehear", "--grammar", "no.jsgf")])
def test_wrong_use(handsfree: Command, kept: Path, tmp_path: Path, options: tuple[str, ...]) -> None:
    """Options that do nothing alone, and a grammar that is not there."""
    out = tmp_path / "page.html"
    made = handsfree("debrief", "last", *options, "--sessions", kept, "--out", out)
    assert (2, "", 1) == (made.status, made.out, len(made.complaints))
    assert not out.exists()
