"""A session that is erased leaves nothing behind."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import pytest

from handsfree.errors import NotThere
from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row


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
