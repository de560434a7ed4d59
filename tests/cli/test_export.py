"""`handsfree export`: a session as plain files, whole or not."""

from __future__ import annotations

import csv
import hashlib
import json
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from handsfree.cli import run
from handsfree.webvtt import read_webvtt
from tests.cli.conftest import Command
from tests.dialogues import ORDER
from tests.guide_process import walked

FILES = [
    "captions.vtt",
    "chapters.vtt",
    "events.jsonl",
    "marks.csv",
    "record.csv",
    "record.json",
    "record.txt",
]


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A sessions folder with one session that was cut off by the end of its input, and a clip."""
    folder = tmp_path_factory.mktemp("kept")
    assert walked(folder, "guide", lines=(*ORDER, "needle stick")).returncode == 0
    (session,) = ids(folder)
    (folder / "sound" / session).mkdir(parents=True)
    (folder / "sound" / session / "words-9.ogg").write_bytes(b"sound")
    return folder


@pytest.fixture
def damaged(kept: Path, tmp_path: Path) -> Path:
    """A copy of it to be damaged."""
    for file in kept.glob("handsfree.*"):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    return tmp_path


def ids(folder: Path) -> list[str]:
    with closing(sqlite3.connect(folder / "handsfree.db")) as database:
        return [session for (session,) in database.execute("SELECT DISTINCT session FROM events")]


def change(folder: Path, statement: str) -> None:
    with closing(sqlite3.connect(folder / "handsfree.db")) as database:
        database.execute(statement)
        database.commit()


def test_every_file_is_there(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """By id or as the last: the files that the interface names, and the sound at its place."""
    (session,) = ids(kept)
    for name in (session, "last"):
        out = tmp_path / name
        done = handsfree("export", name, "--out", out, "--sessions", kept)
        assert (done.status, done.out) == (0, "")
        assert sorted(file.name for file in out.iterdir()) == [*FILES, "sound"]
        assert (out / "sound" / session / "words-9.ogg").read_bytes() == b"sound"


def test_events_can_be_checked_by_anybody(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Each line is one event, and its chain is SHA-256 over the one before and its fields."""
    handsfree("export", "last", "--out", tmp_path, "--sessions", kept)
    before = ""
    for number, line in enumerate((tmp_path / "events.jsonl").read_text().splitlines(), 1):
        fields = json.loads(line)
        chain = fields.pop("chain")
        text = json.dumps(fields, sort_keys=True, separators=(",", ":"))
        before = hashlib.sha256((before + text).encode()).hexdigest()
        assert (chain, fields["seq"]) == (before, number)
    assert before


def test_captions_and_marks(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Captions are WebVTT with both sides; marks are the steps and moments with their seconds."""
    handsfree("export", "last", "--out", tmp_path, "--sessions", kept)
    text = (tmp_path / "captions.vtt").read_text("utf-8")
    texts = [cue.text for cue in read_webvtt(text, "captions.vtt")]
    assert {"two identifiers", "Taken. What volume?"} <= set(texts)
    assert "<v User>" in text
    assert "<v Handsfree>" in text

    with (tmp_path / "marks.csv").open(newline="") as file:
        marks = list(csv.DictReader(file))
    assert list(marks[0]) == ["at", "at_s", "kind", "step", "value", "note"]
    assert [mark["kind"] for mark in marks] == ["done"] * 7 + ["emergency"]
    assert [float(mark["at_s"]) for mark in marks] == sorted(float(mark["at_s"]) for mark in marks)


def test_damage_is_named_and_the_rest_is_there(handsfree: Command, damaged: Path, tmp_path: Path) -> None:
    """On standard error, and in the record itself; the events that are whole are all written."""
    (session,) = ids(damaged)
    change(damaged, "UPDATE events SET body = '{}' WHERE seq = 9")
    done = handsfree("export", session, "--out", tmp_path / "out", "--sessions", damaged)

    sentence = f"Row 9 of session {session} is not proven to be what was written."
    assert (done.status, done.out) == (0, "")
    assert done.err.splitlines()[0] == sentence
    for name in ("record.txt", "record.csv", "record.json"):
        assert sentence in (tmp_path / "out" / name).read_text("utf-8")
    seqs = [json.loads(line)["seq"] for line in (tmp_path / "out" / "events.jsonl").read_text().splitlines()]
    assert 9 not in seqs
    assert len(seqs) == seqs[-1] - 1
    assert f"  {sentence}\n" in handsfree("sessions", "--sessions", damaged).out


def test_a_session_without_its_beginning(handsfree: Command, damaged: Path, tmp_path: Path) -> None:
    """What it was about is lost: its events are written all the same, and that is said."""
    (session,) = ids(damaged)
    change(damaged, "DELETE FROM events WHERE seq = 1")
    done = handsfree("export", session, "--out", tmp_path / "out", "--sessions", damaged)

    assert done.status == 0
    assert f"The session {session} has no beginning." in done.err
    assert [file.name for file in (tmp_path / "out").iterdir()] == ["events.jsonl"]


def test_a_session_of_which_nothing_is_left(handsfree: Command, damaged: Path, tmp_path: Path) -> None:
    """The side file knows that there was one: an empty export would pass for a record."""
    (session,) = ids(damaged)
    change(damaged, "DELETE FROM events")
    told = handsfree("export", session, "--out", tmp_path / "out", "--sessions", damaged)

    assert (told.status, told.out) == (3, "")
    assert told.complaints == [
        f"Nothing of the record of {session} can be read. Restore the database from a copy."
    ]
    assert not (tmp_path / "out").exists()


KILLED = """
import resource, signal, sys
from handsfree.cli import run

signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, 40_000))
run(sys.argv[1:])
"""
"""A command that the kernel kills in the midst of a file of more than 40 000 bytes (POSIX, setrlimit)."""


@pytest.mark.parametrize(
    ("command", "out", "cut"), [("debrief", "page", "page"), ("export", "", "events.jsonl")]
)
def test_what_lies_there_after_a_kill(
    damaged: Path, command: str, out: str, cut: str, tmp_path: Path
) -> None:
    """The file of before, and the new one as far as it came, with the name of an unfinished one."""
    file = tmp_path / "out" / cut
    file.parent.mkdir()
    file.write_text("old")
    typed = (command, "last", "--sessions", damaged, "--out", tmp_path / "out" / out)
    killed = subprocess.run([sys.executable, "-c", KILLED, *map(str, typed)], check=False, timeout=100)

    assert killed.returncode == -signal.SIGXFSZ
    assert file.read_text() == "old"
    assert file.with_name(f"{cut}.part").stat().st_size == 40_000


def test_what_is_not_there(handsfree: Command, tmp_path: Path) -> None:
    """No session of that name, or none at all: one line, and nothing is written."""
    for name in ("none", "last"):
        told = handsfree("export", name, "--out", tmp_path / "out", "--sessions", tmp_path / "kept")
        assert (told.status, told.out, len(told.complaints)) == (1, "", 1)
    assert not (tmp_path / "out").exists()


def test_the_last_is_erased(kept: Path, damaged: Path) -> None:
    """ "last" is good for erasing too."""
    assert run(["sessions", "--erase", "last", "--sessions", str(damaged)]) == 0
    assert ids(damaged) == []
    assert len(ids(kept)) == 1
