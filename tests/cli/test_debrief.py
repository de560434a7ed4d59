"""`handsfree debrief`: from what was kept to a page, and what is said where it cannot be made."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from threading import Thread

import numpy as np
import pytest
import soundfile

from handsfree.care import events as e
from handsfree.keep.journal import SqlJournal
from handsfree.record import load
from handsfree.shelf import emergencies
from handsfree.signals import SAMPLE_RATE
from tests.cli.conftest import Command
from tests.guide_process import walked


@pytest.fixture(scope="module")
def walked_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("debrief") / "sessions"
    walked(folder, "guide", lines=("two identifiers", "skip because no time", "end session", "yes end it"))
    return folder


@pytest.fixture
def kept(walked_once: Path, tmp_path: Path) -> Path:
    """A folder with one short session, in which a step was skipped."""
    return shutil.copytree(walked_once, tmp_path / "sessions")


def test_page_of_the_last_session(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """One file, and where it is; a second time it takes the place of the first, also by a link."""
    page, out = tmp_path / "page.html", tmp_path / "link.html"
    out.symlink_to(page)
    for _ in range(2):
        made = handsfree("debrief", "last", "--sessions", kept, "--out", out)
        assert (0, "") == (made.status, made.err)
        assert str(out) in made.out
        assert "It holds all that was said" in made.out
    assert "Peripheral I V" in page.read_text("utf-8")
    assert out.is_symlink()
    assert ["link.html", "page.html", "sessions"] == sorted(one.name for one in tmp_path.iterdir())


def test_a_pipe_stays_a_pipe(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """What is no file takes the page as it comes; /dev/null was once replaced by one."""
    pipe, came = tmp_path / "pipe", list[bytes]()
    os.mkfifo(pipe)
    reader = Thread(target=lambda: came.append(pipe.read_bytes()), daemon=True)
    reader.start()
    made = handsfree("debrief", "last", "--sessions", kept, "--out", pipe)
    reader.join(timeout=20)
    assert (0, "") == (made.status, made.err)
    assert b"Peripheral I V" in came[0]
    assert pipe.is_fifo()


def test_several_runs(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Each session that is named has its column."""
    out = tmp_path / "page.html"
    assert 0 == handsfree("debrief", "last", "last", "--sessions", kept, "--out", out).status
    assert 2 == out.read_text("utf-8").count('class="card run"')


@pytest.mark.parametrize(
    ("arguments", "status"),
    [(("none",), 1), ((), 2), (("last", "--out", "no/such/folder/page.html"), 3)],
)
def test_what_cannot_be_made(handsfree: Command, kept: Path, arguments: tuple[str, ...], status: int) -> None:
    """One sentence, and no page."""
    made = handsfree("debrief", *arguments, "--sessions", kept)
    assert (status, "", 1) == (made.status, made.out, len(made.complaints))


def test_nothing_was_kept(handsfree: Command, tmp_path: Path) -> None:
    """The last of no sessions is not there."""
    made = handsfree("debrief", "last", "--sessions", tmp_path)
    assert (1, "", 1) == (made.status, made.out, len(made.complaints))


@pytest.mark.parametrize("content", [b"", b"not a database", b"\0" * 5000])
def test_foreign_database(handsfree: Command, tmp_path: Path, content: bytes) -> None:
    """Empty, or no database: one sentence."""
    (tmp_path / "handsfree.db").write_bytes(content)
    made = handsfree("debrief", "last", "--sessions", tmp_path, "--out", tmp_path / "page.html")
    assert (made.status in (1, 3), "", 1) == (True, made.out, len(made.complaints))
    assert not (tmp_path / "page.html").exists()


def test_lost_rows_are_told_on_the_page(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Damage in the middle costs its rows; the page says which."""
    with sqlite3.connect(kept / "handsfree.db") as database:
        database.execute("DELETE FROM events WHERE seq = 4")
    out = tmp_path / "page.html"
    assert 0 == handsfree("debrief", "last", "--sessions", kept, "--out", out).status
    assert "4" in out.read_text("utf-8").split('class="notice">')[1].split("</p>")[0]


def test_a_lost_beginning(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """Without its first row nobody knows what was run."""
    with sqlite3.connect(kept / "handsfree.db") as database:
        database.execute("DELETE FROM events WHERE seq = 1")
    made = handsfree("debrief", "last", "--sessions", kept, "--out", tmp_path / "page.html")
    assert (3, "", 1) == (made.status, made.out, len(made.complaints))


def _with_sound(folder: Path, path: str) -> None:
    """Let a session refer to a sound file, as a damaged or foreign database might."""
    with closing(SqlJournal(folder)) as journal:
        (session,) = journal.sessions()
        kept = load(journal, session, emergencies())
        kept.record.keep([e.Recorded(kept.records[-1].at, e.SpeechNotUnderstood("words", path))])


TONE = (0.5 * np.sin(np.arange(2 * SAMPLE_RATE) / 5)).astype(np.float32)


@pytest.mark.parametrize(
    ("damage", "found"),
    [
        (lambda whole: whole, True),
        (lambda whole: whole[: len(whole) * 2 // 3], True),
        (lambda whole: whole[:20], False),
        (lambda whole: b"", False),
        (lambda whole: b"a" * 5000, False),
        (lambda whole: None, False),
    ],
    ids=["whole", "cut", "head", "empty", "foreign", "missing"],
)
def test_damaged_sound(
    handsfree: Command, kept: Path, tmp_path: Path, damage: Callable[[bytes], bytes | None], found: bool
) -> None:
    """What can be read of sound is on the page; what can't is named there."""
    file = kept / "sound" / "x" / "words.ogg"
    file.parent.mkdir(parents=True)
    soundfile.write(file, TONE, SAMPLE_RATE, format="OGG", subtype="OPUS")
    content = damage(file.read_bytes())
    file.unlink()
    if content is not None:
        file.write_bytes(content)
    _with_sound(kept, "sound/x/words.ogg")

    out = tmp_path / "page.html"
    assert 0 == handsfree("debrief", "last", "--sessions", kept, "--out", out).status
    text = out.read_text("utf-8")
    assert found == ('id="sound0"' in text)
    assert found != ("The sound file sound/x/words.ogg is missing or cannot be read." in text)


def test_a_path_that_leads_out_is_not_followed(handsfree: Command, kept: Path, tmp_path: Path) -> None:
    """A foreign database cannot put a file from elsewhere on the page."""
    soundfile.write(tmp_path / "mine.ogg", TONE, SAMPLE_RATE, format="OGG", subtype="OPUS")
    _with_sound(kept, "../mine.ogg")

    out = tmp_path / "page.html"
    assert 0 == handsfree("debrief", "last", "--sessions", kept, "--out", out).status
    assert 'id="sound0"' not in out.read_text("utf-8")
