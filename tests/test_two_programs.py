"""Two programs on one session: the second is refused, and the first goes on as if nobody had asked."""

from __future__ import annotations

import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from handsfree.errors import NotSo
from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row
from tests.guide_process import walked


def test_the_second_is_refused(tmp_path: Path) -> None:
    """While a session runs, resuming and erasing it is refused in one line; the first goes on to its end."""
    words = [sys.executable, "-m", "handsfree", "guide", "--ear", "typed", "--sessions", str(tmp_path)]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as first:
        assert first.stdin is not None
        assert first.stdout is not None
        assert first.stdout.readline()
        second = walked(tmp_path, "resume", lines=("two identifiers",))
        with closing(SqlJournal(tmp_path)) as journal, pytest.raises(NotSo, match="in another program"):
            journal.erase(journal.sessions()[0])
        rest, _ = first.communicate("two identifiers\nend session\nyes end it\n")

    assert (second.returncode, second.stdout) == (1, "")
    (complaint,) = second.stderr.splitlines()
    assert "is going on in another program. Close it there" in complaint
    assert rest.splitlines()[0] == "Two identifiers. Which fluid is ordered?"
    with closing(SqlJournal(tmp_path)) as journal:
        assert journal.salvage(journal.sessions()[0]).damage == ()


def test_a_claim_ends_with_who_made_it(tmp_path: Path) -> None:
    """Closed or killed, it leaves the session to the next; an erased session leaves no lock file."""
    with closing(SqlJournal(tmp_path)) as one, closing(SqlJournal(tmp_path)) as other:
        one.append([row("one", 1)])
        one.claim("one")
        with pytest.raises(NotSo):
            other.claim("one")
        one.close()
        other.claim("one")
        other.erase("one")

    assert not (tmp_path / "one.lock").exists()
