"""`handsfree sessions`: what was kept is listed, and erased on request."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row
from tests.cli.conftest import Command


def kept(folder: Path) -> Path:
    with closing(SqlJournal(folder)) as journal:
        journal.append([row("one", 1, "2031-05-04T08:00:00.000000Z")])
        journal.append([row("two", 1, "2031-05-04T09:00:00.000000Z")])
    (folder / "sound" / "one").mkdir(parents=True)
    (folder / "sound" / "one" / "words-1.ogg").write_bytes(b"sound")
    return folder


def test_they_are_listed_oldest_first(handsfree: Command, tmp_path: Path) -> None:
    """One id a line; nothing where nothing was kept."""
    assert handsfree("sessions", "--sessions", tmp_path / "none").out == ""
    assert handsfree("sessions", "--sessions", kept(tmp_path)).out == "one\ntwo\n"


def test_one_is_erased_with_its_sound(handsfree: Command, tmp_path: Path) -> None:
    """The others stay; what is not there is told in one line."""
    erased = handsfree("sessions", "--erase", "one", "--sessions", kept(tmp_path))
    assert (erased.status, erased.out, erased.err) == (0, "", "Erased one.\n")
    assert handsfree("sessions", "--sessions", tmp_path).out == "two\n"
    assert not (tmp_path / "sound" / "one").exists()

    again = handsfree("sessions", "--erase", "one", "--sessions", tmp_path)
    assert (again.status, again.out, len(again.complaints)) == (1, "", 1)
