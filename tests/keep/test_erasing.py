"""A session that is erased leaves nothing behind."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import pytest

from handsfree.errors import NotThere, StoreFailed
from handsfree.keep.erasing import erase_sound
from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row
from tests.keep.test_disks import read_only


def test_nothing_is_left_in_the_files(tmp_path: Path) -> None:
    """Neither database, log nor side file holds a byte of it, even while the store is open; another session
    is whole and goes on."""
    with closing(SqlJournal(tmp_path)) as journal:
        for seq in range(1, 60):
            journal.append([row("erased", seq, text=f"secret {seq} " + "x" * seq * 20)])
            journal.append([row("kept", seq, text="whole")])
        journal.erase("erased")
        stored = {file.name: file.read_bytes() for file in tmp_path.iterdir()}

        assert [] == [name for name, held in stored.items() if b"secret" in held or b"erased" in held]
        assert stored["handsfree.db-wal"] == b""
        assert journal.sessions() == ("kept",)
        journal.append([row("kept", 60)])
        assert len(journal.read("kept")) == 60


def test_what_is_not_there_is_told(tmp_path: Path) -> None:
    """Erasing needs a session that is kept."""
    with closing(SqlJournal(tmp_path)) as journal, pytest.raises(NotThere, match="There is no session none"):
        journal.erase("none")


def test_nothing_is_left_of_the_sound(tmp_path: Path) -> None:
    """Files of sound are overwritten before they go, in folders below as well; another session's stay."""
    for place in ("one/soundtrack-1.ogg", "one/deeper/words-1.ogg", "two/soundtrack-1.ogg"):
        (tmp_path / "sound" / place).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "sound" / place).write_bytes(b"secret" * 300_000)
    held = tmp_path / "held"
    held.hardlink_to(tmp_path / "sound" / "one" / "soundtrack-1.ogg")

    assert erase_sound(tmp_path, "one")
    assert not erase_sound(tmp_path, "one")
    assert held.read_bytes() == bytes(1_800_000)
    assert [path.name for path in (tmp_path / "sound").iterdir()] == ["two"]
    assert (tmp_path / "sound" / "two" / "soundtrack-1.ogg").read_bytes() == b"secret" * 300_000


def test_sound_that_is_held_is_told(tmp_path: Path) -> None:
    """What can't be erased is one sentence with the next step, and what is not erased is still there."""
    folder = tmp_path / "sound" / "one"
    folder.mkdir(parents=True)
    (folder / "soundtrack-1.ogg").write_bytes(b"secret")
    with read_only(tmp_path / "sound"), pytest.raises(StoreFailed, match="can't be erased") as failed:
        erase_sound(tmp_path, "one")

    assert failed.value.next_step
    assert (folder / "soundtrack-1.ogg").read_bytes() == b"secret"


def test_a_link_is_removed_and_not_followed(tmp_path: Path) -> None:
    """What somebody linked into the folder of a session is not the session's."""
    folder, mine = tmp_path / "sound" / "one", tmp_path / "mine"
    folder.mkdir(parents=True)
    mine.write_bytes(b"precious")
    (folder / "linked.ogg").symlink_to(mine)

    assert erase_sound(tmp_path, "one")
    assert mine.read_bytes() == b"precious"
