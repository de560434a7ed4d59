"""Disks that are full or read-only, as real mounts: root is not held up by file modes."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from handsfree.errors import StoreFailed
from handsfree.keep import journal as journals
from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row


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
