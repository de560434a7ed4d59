"""Reading goes round damage: what is whole is delivered, what is not is named by its numbers."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import asdict
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.keep.chain import End, link
from handsfree.keep.journal import SqlJournal
from handsfree.keep.salvage import salvaged
from handsfree.ports import Row, Salvaged
from handsfree.testing.journal import row

ROWS = 9


class Columns:
    """A row of the table as a database gives it."""

    def __init__(self, one: Row, chain: str) -> None:
        self.__dict__.update(asdict(one), body=json.dumps(one.body), chain=chain)


def table(rows: int = ROWS) -> list[Columns]:
    chain, stored = "", []
    for seq in range(1, rows + 1):
        one = row("one", seq, text=f"what was said {seq}")
        chain = link(chain, one)
        stored.append(Columns(one, chain))
    return stored


END = End(ROWS, table()[-1].chain)  # type: ignore[attr-defined]


def told(found: Salvaged) -> list[str]:
    return [str(one) for one in found.damage]


def seqs(found: Salvaged) -> list[int]:
    return [one.seq for one in found.rows]


ALTERED = (
    ({4: {"body": '{"text":"other"}'}}, [4], "Row 4 of session one is not proven to be what was written."),
    ({4: {"body": "no json"}}, [4], "Row 4 of session one is not proven to be what was written."),
    ({4: {"body": b"\xff"}}, [4], "Row 4 of session one is not proven to be what was written."),
    ({4: {"chain": "x"}}, [4], "Row 4 of session one is not proven to be what was written."),
    ({9: {"chain": "x"}}, [9], "Row 9 of session one is not proven to be what was written."),
    (
        {4: {"at": 5}, 5: {"v": 2}},
        [4, 5],
        "Rows 4 to 5 of session one are not proven to be what was written.",
    ),
)


@pytest.mark.parametrize(("changes", "lost", "says"), ALTERED)
def test_an_altered_row_stays_alone(
    changes: dict[int, dict[str, object]], lost: list[int], says: str
) -> None:
    """Those before and after it are delivered; it is named."""
    stored = table()
    for seq, columns in changes.items():
        stored[seq - 1].__dict__.update(columns)
    found = salvaged("one", stored, END)

    assert seqs(found) == [seq for seq in range(1, ROWS + 1) if seq not in lost]
    assert [says] == told(found)
    assert found.last == ROWS


def test_missing_rows_and_the_one_behind_them() -> None:
    """The row after a gap follows one that nobody can read: it is not delivered as whole, but named."""
    found = salvaged("one", [one for n, one in enumerate(table(), 1) if n not in (4, 5)], END)

    assert seqs(found) == [1, 2, 3, 7, 8, 9]
    assert told(found) == [
        "Rows 4 to 5 of session one are missing.",
        "Row 6 of session one is not proven to be what was written.",
    ]


def test_a_lost_end_and_all_that_follows_it() -> None:
    """Rows that only the side file knows are named, also when the session went on after them."""
    stored = table()[:6]
    after = row("one", ROWS + 1)
    chain = link(stored[-1].chain, after)  # type: ignore[attr-defined]

    assert told(salvaged("one", stored, END)) == ["Rows 7 to 9 of session one are missing."]
    found = salvaged("one", [*stored, Columns(after, chain)], End(ROWS + 1, chain))
    assert seqs(found) == [1, 2, 3, 4, 5, 6, 10]
    assert told(found) == ["Rows 7 to 9 of session one are missing."]


def test_a_number_that_was_never_given() -> None:
    """A row whose number was damaged is named under both; nothing up to the wrong one is called missing."""
    stored = table()
    stored[4].__dict__["seq"] = 2**40
    found = salvaged("one", sorted(stored, key=lambda one: one.seq), END)  # type: ignore[attr-defined]

    assert seqs(found) == [1, 2, 3, 4, 7, 8, 9]
    assert told(found)[0] == "Row 5 of session one is missing."
    assert told(found)[-1] == f"Row {2**40} of session one is not proven to be what was written."
    assert found.last == ROWS


def _as_sqlite_sorts(columns: Columns) -> tuple[int, object]:
    """Nothing, then numbers, text, and bytes (SQLite, Datatypes, section 4.1)."""
    seq = columns.seq  # type: ignore[attr-defined]
    kinds: tuple[type, ...] = (type(None), int, str, bytes)
    return [isinstance(seq, kind) for kind in kinds].index(True), 0 if seq is None else seq


def test_a_number_of_another_kind() -> None:
    """A flipped byte can make text or bytes of a number: its row is named as missing, or as the next one."""
    stored = table()
    stored[4].__dict__["seq"] = b"\x05"
    assert ["Row 5 of session one is missing."] == told(salvaged("one", stored, END))
    stored = [*table(), Columns(row("one", ROWS + 1), "x")]
    stored[-1].__dict__["seq"] = "10"
    assert ["Row 10 of session one is not proven to be what was written."] == told(
        salvaged("one", stored, END)
    )


@given(
    st.lists(
        st.tuples(
            st.integers(0, ROWS - 1),
            st.sampled_from(["seq", "at", "type", "v", "body", "chain", "session"]),
            st.none() | st.integers(-3, 12) | st.text(max_size=5) | st.binary(max_size=5),
        ),
        max_size=4,
    ),
    st.sets(st.integers(0, ROWS - 1)),
)
def test_whole_or_named(changes: list[tuple[int, str, object]], gone: set[int]) -> None:
    """Whatever is altered or taken away: each row is delivered as it was written, or its number is named."""
    stored = table()
    for place, column, value in changes:
        stored[place].__dict__[column] = value
    left = sorted((one for n, one in enumerate(stored) if n not in gone), key=_as_sqlite_sorts)
    found = salvaged("one", left, END)
    named = {seq for one in found.damage for seq in range(one.first, min(one.last, ROWS) + 1)}

    assert [row("one", one.seq, text=f"what was said {one.seq}") for one in found.rows] == list(found.rows)
    assert {*seqs(found)} | named >= set(range(1, ROWS + 1))
    assert not {*seqs(found)} & named


def test_a_page_that_is_gone_costs_its_own_rows(tmp_path: Path) -> None:
    """Of a database with a page of rubbish in the middle all rows on other pages are delivered."""
    with closing(SqlJournal(tmp_path)) as journal:
        journal.append(row("one", seq, text=f"what was said {seq} " * 20) for seq in range(1, 101))
    file = tmp_path / "handsfree.db"
    held = bytearray(file.read_bytes())
    page = held.index(b"what was said 50 ") // 4096
    held[page * 4096 : (page + 1) * 4096] = b"\xa5" * 4096
    file.write_bytes(held)

    with closing(sqlite3.connect(file)) as database, pytest.raises(sqlite3.DatabaseError):
        database.execute("SELECT * FROM events").fetchall()
    with closing(SqlJournal(tmp_path)) as journal:
        found = journal.salvage("one")
        assert journal.sessions() == ("one",)
    assert len(found.rows) > 80
    (damage,) = {str(one)[-8:] for one in found.damage if "missing" in str(one)}
    assert damage == "missing."


def test_a_row_whose_session_was_renamed(tmp_path: Path) -> None:
    """It is missing where it belongs, and nothing is delivered under the other name."""
    with closing(SqlJournal(tmp_path)) as journal:
        journal.append(row("one", seq) for seq in range(1, 6))
    with closing(sqlite3.connect(tmp_path / "handsfree.db")) as database:
        database.execute("UPDATE events SET session = 'onf' WHERE seq = 3")
        database.commit()
    with closing(SqlJournal(tmp_path)) as journal:
        assert told(journal.salvage("onf")) == ["Row 3 of session onf is not proven to be what was written."]
        assert (journal.salvage("onf").rows, journal.salvage("onf").last) == ((), 0)
        assert seqs(journal.salvage("one")) == [1, 2, 5]


def test_a_session_goes_on_after_its_lost_end(tmp_path: Path) -> None:
    """The next row has the number after the last one that ever was; the lost ones stay named for ever."""
    with closing(SqlJournal(tmp_path)) as journal:
        journal.append(row("one", seq) for seq in range(1, 6))
    with closing(sqlite3.connect(tmp_path / "handsfree.db")) as database:
        database.execute("DELETE FROM events WHERE seq > 3")
        database.commit()
    with closing(SqlJournal(tmp_path)) as journal:
        journal.append([row("one", journal.salvage("one").last + 1)])
        journal.append([row("one", 7)])
        found = journal.salvage("one")

    assert seqs(found) == [1, 2, 3, 6, 7]
    assert told(found) == ["Rows 4 to 5 of session one are missing."]
