"""The journal in PostgreSQL: the same contract, the same names for damage. The server comes with pgserver."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from handsfree.errors import NotThere, StoreFailed
from handsfree.keep.journal import SqlJournal
from handsfree.keep.table import METADATA
from handsfree.ports import Journal
from handsfree.testing.journal import CHECKS, row


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """URL of a server of its own; the tests are left out where there is none for this machine."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_RUNTIME_DIR", str(tmp_path_factory.mktemp("run")))
        pgserver = pytest.importorskip("pgserver")
        running = pgserver.get_server(tmp_path_factory.mktemp("pg"), cleanup_mode="delete")
        yield running.get_uri().replace("postgresql://", "postgresql+psycopg://")
        running.cleanup()


@pytest.fixture
def url(server: str) -> str:
    """The same, without a table."""
    engine = create_engine(server)
    METADATA.drop_all(engine)
    engine.dispose()
    return server


@pytest.fixture
def journal(url: str, tmp_path: Path) -> Iterator[SqlJournal]:
    with closing(SqlJournal(tmp_path, url)) as opened:
        yield opened


def change(url: str, statement: str) -> None:
    engine = create_engine(url)
    with engine.begin() as database:
        database.execute(text(statement))
    engine.dispose()


@pytest.mark.parametrize("check", CHECKS)
def test_it_keeps_the_contract(check: Callable[[Journal], None], journal: SqlJournal) -> None:
    """PostgreSQL does what every journal must."""
    journal.probe()
    check(journal)


def test_damage_is_named(journal: SqlJournal, url: str) -> None:
    """A row that was changed, and an end that is missing, are named by their numbers, as in SQLite."""
    journal.append(row("one", seq, text=f"said {seq}") for seq in range(1, 7))
    change(url, "UPDATE events SET body = replace(body, 'said', 'done') WHERE seq = 3")
    change(url, "DELETE FROM events WHERE seq > 4")

    assert [(3, 3), (5, 6)] == [(one.first, one.last) for one in journal.salvage("one").damage]


def test_two_programs_do_not_mix(journal: SqlJournal, url: str, tmp_path: Path) -> None:
    """Another folder on another machine knows nothing of our locks: the second row of a number is refused."""
    journal.append([row("one", 1)])
    with closing(SqlJournal(tmp_path / "elsewhere", url)) as other:
        other.append([row("one", 2)])
        with pytest.raises(StoreFailed, match="Another program writes to the same session"):
            journal.append([row("one", 2, ours=True)])

    journal.append([row("one", 3)])
    assert [1, 2, 3] == [one.seq for one in journal.read("one")]


def test_erasing_says_what_it_cannot_reach(journal: SqlJournal) -> None:
    """The rows are gone; what the server keeps beside its tables is not ours to overwrite, and is named."""
    journal.append([row("one", 1), row("two", 1)])

    assert "backups" in journal.erase("one")
    assert ("two",) == journal.sessions()
    with pytest.raises(NotThere):
        journal.read("one")


def test_a_long_name_of_a_session_is_kept(journal: SqlJournal) -> None:
    """A checklist of one's own may have any name that a file can."""
    name = f"20310504T080000-{'x' * 200}"
    journal.append([row(name, 1)])

    assert (name,) == journal.sessions()


def test_a_server_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    """No traceback: what cannot be used, and what to do."""
    nowhere = f"postgresql+psycopg://nobody@/none?host={tmp_path}"
    with closing(SqlJournal(tmp_path, nowhere)) as journal, pytest.raises(StoreFailed) as refused:
        journal.probe()
    assert "Check the database and try again." in refused.value.next_step
    assert "\n" not in str(refused.value)
