"""Disks that are full or read-only, as real mounts: root is not held up by file modes."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from pathlib import Path
from typing import Any

import pytest

from handsfree.care import events as e
from handsfree.errors import StoreFailed
from handsfree.keep import journal as journals
from handsfree.keep.journal import SqlJournal
from handsfree.loop import Corridor
from handsfree.record import Record, load
from handsfree.shelf import emergencies
from handsfree.testing.dialogue import SESSION, ScriptVoice
from handsfree.testing.journal import row
from tests.dialogues import told


@contextmanager
def mounted(folder: Path, *options: str) -> Iterator[None]:
    folder.mkdir(exist_ok=True)
    done = subprocess.run(["mount", *options, str(folder)], capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip(f"mounting is for root on a real machine: {done.stderr.strip()}")
    try:
        yield
    finally:
        subprocess.run(["umount", str(folder)], check=True)


@contextmanager
def read_only(folder: Path) -> Iterator[None]:
    with mounted(folder, "--bind", str(folder)):
        subprocess.run(["mount", "-o", "remount,ro,bind", str(folder)], check=True)
        yield


@contextmanager
def small(folder: Path, size: str) -> Iterator[None]:
    with mounted(folder, "-t", "tmpfs", "-o", f"size={size}", "tmpfs"):
        yield


def test_a_read_only_folder_is_refused_at_the_start(tmp_path: Path) -> None:
    """No session starts where it can't be kept."""
    with (
        read_only(tmp_path / "sessions"),
        closing(SqlJournal(tmp_path / "sessions")) as journal,
        pytest.raises(StoreFailed, match=r"read-only\. Give a folder"),
    ):
        journal.probe()


def test_a_read_only_store_is_read_with_its_log(tmp_path: Path) -> None:
    """Rows that are still in the log of a session that was cut off are read from a read-only disk too."""
    with closing(SqlJournal(tmp_path / "live")) as journal:
        journal.append([row("one", 1)])
        journal.append([row("one", 2)])
        folder = Path(shutil.copytree(tmp_path / "live", tmp_path / "cut"))

    with read_only(folder), closing(SqlJournal(folder)) as reader:
        assert (folder / "handsfree.db-wal").stat().st_size > 0
        assert reader.sessions() == ("one",)
        assert reader.read("one") == (row("one", 1), row("one", 2))
        with pytest.raises(StoreFailed, match="read-only"):
            reader.append([row("one", 3)])


@pytest.mark.parametrize("size", ["64k", "1m", "3m"])
def test_a_full_disk_is_refused_at_the_start(size: str, tmp_path: Path) -> None:
    """No session starts where there is no room for it."""
    with (
        small(tmp_path / "sessions", size),
        closing(SqlJournal(tmp_path / "sessions")) as journal,
        pytest.raises(StoreFailed, match=r"is full\. Free some space"),
    ):
        journal.probe()


def test_a_disk_that_fills_up_fails_clearly_and_keeps_the_rest(tmp_path: Path) -> None:
    """Rows that no longer fit are refused in one sentence; those before them stay, and once there is
    room again the session goes on."""
    folder = tmp_path / "sessions"
    with small(folder, f"{journals.ROOM_BYTES // 1000 + 100}k"), closing(SqlJournal(folder)) as journal:
        journal.probe()
        journal.append([row("one", 1)])
        (folder / "ballast").write_bytes(b"")
        with (folder / "ballast").open("wb", buffering=0) as ballast, pytest.raises(OSError, match="space"):
            while ballast.write(bytes(4096)):
                pass
        with pytest.raises(StoreFailed, match=r"full|fails"):
            journal.append([row("one", 2, text="x" * 100_000)])

        assert journal.read("one") == (row("one", 1),)
        (folder / "ballast").unlink()
        journal.append([row("one", 2)])
        assert len(journal.read("one")) == 2


SAID = ("two identifiers", "normal saline", "correct", "one litre", "correct", "over eight hours", "correct")


@contextmanager
def full(folder: Path, _: SqlJournal) -> Iterator[None]:
    """The disk of a folder without a byte to spare."""
    ballast = folder / "ballast"
    with ballast.open("wb", buffering=0) as file, pytest.raises(OSError, match="space"):
        while file.write(bytes(4096)):
            pass
    yield
    ballast.unlink()


@contextmanager
def unwritable(folder: Path, journal: SqlJournal) -> Iterator[None]:
    """A disk that is read-only from now on; the system grants that only while no file on it is open."""
    journal.close()
    subprocess.run(["mount", "-o", "remount,ro", str(folder)], check=True)
    yield
    subprocess.run(["mount", "-o", "remount,rw", str(folder)], check=True)


@contextmanager
def locked(folder: Path, _: SqlJournal) -> Iterator[None]:
    """A database that another program holds."""
    with closing(sqlite3.connect(folder / "handsfree.db")) as holder:
        holder.execute("BEGIN IMMEDIATE")
        yield
        holder.rollback()


class TroubledVoice(ScriptVoice):
    """A voice that lets trouble begin with one sentence that it says, and end with another."""

    def __init__(
        self, lines: list[str], trouble: AbstractContextManager[None], first: str, last: str
    ) -> None:
        super().__init__(lines)
        self._trouble, self._first, self._last = trouble, first, last

    def say(self, text: str) -> float:
        if text.startswith(self._first):
            self._trouble.__enter__()
        if text.startswith(self._last):
            self._trouble.__exit__(None, None, None)
        return super().say(text)


TROUBLES = (
    (full, "Warning. This is not being recorded. The disk "),
    (unwritable, "Warning. This is not being recorded. The disk is read-only, or not to be written."),
    (locked, "Warning. This is not being recorded. Another program holds the record."),
)


@pytest.mark.parametrize(("trouble", "warning"), TROUBLES)
def test_a_session_outlives_its_disk(
    trouble: Callable[[Path, SqlJournal], AbstractContextManager[None]], warning: str, tmp_path: Path
) -> None:
    """A disk that fills up, turns read-only, or a database that is locked in mid-session: said aloud and at
    each step, the session goes on, and when it can write again it writes all of it, in order and whole."""
    folder, lines = tmp_path / "sessions", list[str]()
    with small(folder, f"{journals.ROOM_BYTES // 1000 + 100}k"), closing(SqlJournal(folder)) as journal:
        journal.probe()
        record = Record(journal, SESSION)

        def change(corridor: Corridor[Any]) -> None:
            corridor.keep = record.keep
            corridor.mouth.voice = TroubledVoice(
                lines, trouble(folder, journal), "Two identifiers", "One thousand"
            )

        talked = told(*SAID[:4], "+6", *SAID[4:], change=change)
        record.close()
        kept = load(journal, SESSION, emergencies())

    heard = [one.event.text for one in kept.records if isinstance(one.event, e.Announced)]
    (first,) = [n for n, line in enumerate(lines) if line.startswith(warning)]
    assert lines[first - 1].startswith("Two identifiers")
    assert lines[first + 2] == lines[first + 4] == "Not recorded."
    assert lines.count("Recording again. Nothing is missing.") == 1
    assert heard == lines
    assert (kept.damage, kept.session) == ((), talked.session)
