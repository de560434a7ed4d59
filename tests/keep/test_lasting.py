"""What waits for the disk, and what need not."""

from __future__ import annotations

import json
from contextlib import closing
from pathlib import Path

from handsfree.keep.database import opened, url_of
from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row


def test_a_simulation_does_not_wait_for_the_disk(tmp_path: Path) -> None:
    """Its rows are kept all the same, and the side file is written when it is closed (SQLite, PRAGMA
    synchronous: 2 is FULL, 1 is NORMAL, with which a file in WAL mode stays whole)."""
    with closing(SqlJournal(tmp_path, lasting=False)) as journal:
        journal.append([row("one", 1)])
        journal.append([row("one", 2)])
        assert not (tmp_path / "handsfree.ends").exists()
    assert json.loads((tmp_path / "handsfree.ends").read_text())["one"]["seq"] == 2
    with closing(SqlJournal(tmp_path)) as journal:
        assert len(journal.read("one")) == 2

    levels = []
    for lasting in (True, False):
        engine = opened(url_of(tmp_path / "handsfree.db"), lasting=lasting)
        with engine.connect() as database:
            levels.append(database.exec_driver_sql("PRAGMA synchronous").scalar())
        engine.dispose()
    assert levels == [2, 1]
