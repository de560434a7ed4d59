"""The folder of sessions is closed to other accounts."""

from __future__ import annotations

import os
from contextlib import closing
from pathlib import Path

import pytest

from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row


@pytest.mark.skipif(os.name != "posix", reason="other systems keep other rights")
def test_no_other_account_can_look_into_it(tmp_path: Path) -> None:
    """A folder that is made is its owner's alone; one that was there stays as it is."""
    tmp_path.chmod(0o755)
    for folder in (tmp_path / "new" / "sessions", tmp_path):
        with closing(SqlJournal(folder)) as journal:
            journal.append([row("one", 1)])
    assert [0o700, 0o755] == [one.stat().st_mode & 0o777 for one in (tmp_path / "new" / "sessions", tmp_path)]
