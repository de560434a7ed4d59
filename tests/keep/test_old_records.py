"""What an earlier version kept is read by this one: a database as it was written on 26 November 2026."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from handsfree.export import record_of
from handsfree.keep.journal import SqlJournal
from handsfree.record import CODEC, load
from handsfree.shelf import emergencies
from handsfree.show.record_files import record_text
from tests.golden.read import FOLDER, golden

SESSION = "20310504T080000-site_check"


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[SqlJournal]:
    """A copy: SQLite writes beside what it reads."""
    shutil.copytree(FOLDER / "kept_v1", tmp_path / "kept")
    with closing(SqlJournal(tmp_path / "kept")) as opened:
        yield opened


def test_every_row_is_whole(journal: SqlJournal) -> None:
    """The chain proves each row, and the side file that the last one is there."""
    found = journal.salvage(SESSION)

    assert ((SESSION,), ()) == (journal.sessions(), found.damage)
    assert [*range(1, found.last + 1)] == [row.seq for row in found.rows]
    assert {1} == {row.v for row in found.rows}
    assert all(CODEC.decode(row) for row in found.rows)


def test_its_record_reads_as_it_did(journal: SqlJournal) -> None:
    """The session is folded from its events, and its record says the same."""
    head, entries = record_of(load(journal, SESSION, emergencies()))
    text = "\n".join(record_text(head, entries)) + "\n"

    assert golden("kept_v1.txt", text) == text


def test_it_can_be_gone_on_with(journal: SqlJournal) -> None:
    """The next row follows the last one of the old version, in the same chain."""
    last = journal.salvage(SESSION).rows[-1]
    journal.append([type(last)(SESSION, last.seq + 1, last.at, last.type, last.v, last.body)])

    assert () == journal.salvage(SESSION).damage
