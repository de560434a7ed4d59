"""`handsfree sessions`: what was kept is listed, and erased on request."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from handsfree.keep.journal import SqlJournal
from handsfree.ports import Row
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
    """One line each; where nothing was kept, that is told beside."""
    nothing = handsfree("sessions", "--sessions", tmp_path / "none")
    assert (0, "", f"No session is kept in {tmp_path / 'none'}.\n") == (
        nothing.status,
        nothing.out,
        nothing.err,
    )
    listed = handsfree("sessions", "--sessions", kept(tmp_path)).out.splitlines()
    assert [line.split()[0] for line in listed] == ["one", "two"]


def test_each_with_its_beginning_and_its_end(handsfree: Command, tmp_path: Path) -> None:
    """When it began, by which checklist, and whether it was ended or cut off."""
    ends = {"a": ("SessionEnded", {"how": "by voice"}), "b": ("SessionResumed", {}), "c": ("Held", {})}
    at = "2031-05-04T08:00:00.000000Z"
    with closing(SqlJournal(tmp_path)) as journal:
        for session, (kind, body) in ends.items():
            journal.append([Row(session, 1, at, "SessionStarted", 1, {"checklist": "flush_lock"})])
            journal.append([Row(session, 2, at, "SessionEnded", 1, {"how": "input ended"})])
            journal.append([Row(session, 3, at, kind, 1, body)])

    assert handsfree("sessions", "--sessions", tmp_path).out.splitlines() == [
        f"a  {at}  flush_lock  by voice",
        f"b  {at}  flush_lock  cut off",
        f"c  {at}  flush_lock  input ended",
    ]


def test_one_is_erased_with_its_sound(handsfree: Command, tmp_path: Path) -> None:
    """The others stay; what is not there is told in one line."""
    erased = handsfree("sessions", "--erase", "one", "--sessions", kept(tmp_path))
    assert (erased.status, erased.out, erased.err) == (0, "", "Erased one.\n")
    assert handsfree("sessions", "--sessions", tmp_path).out.split()[0] == "two"
    assert not (tmp_path / "sound" / "one").exists()

    left = (file for file in tmp_path.rglob("*") if file.is_file())
    assert [] == [file.name for file in left if b"one" in file.read_bytes()]

    last = handsfree("sessions", "--erase", "last", "--sessions", tmp_path / "none")
    assert (1, "No session is kept here. Start one: handsfree guide.\n") == (last.status, last.err)
    again = handsfree("sessions", "--erase", "one", "--sessions", tmp_path)
    assert (again.status, again.out, len(again.complaints)) == (1, "", 1)


def test_sound_without_a_record_is_erased_too(handsfree: Command, tmp_path: Path) -> None:
    """Where the database is lost, its sound can still be erased by name, and nothing else can."""
    folder = kept(tmp_path)
    (folder / "handsfree.db").unlink()
    (folder / "handsfree.ends").unlink(missing_ok=True)
    outside = folder / "precious.txt"
    outside.write_text("mine")

    assert handsfree("sessions", "--erase", "one", "--sessions", folder).status == 0
    for name in ("..", ".", "../sound", "", "two/../.."):
        assert handsfree("sessions", "--erase", name, "--sessions", folder).status == 1
    assert outside.exists()
    assert not (folder / "sound" / "one").exists()


def test_a_file_of_which_nothing_can_be_read(handsfree: Command, tmp_path: Path) -> None:
    """It is not taken for a folder in which no session is kept."""
    (tmp_path / "handsfree.db").write_text("no database")
    ran = handsfree("sessions", "--sessions", tmp_path)
    assert (ran.status, ran.out, len(ran.complaints)) == (3, "", 1)
    assert "can be read. Restore" in ran.err
