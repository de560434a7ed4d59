"""A journal that forgets, and what every journal must do."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from handsfree.errors import NotThere, StoreFailed
from handsfree.keep.chain import START, link
from handsfree.ports import Journal, Row, Salvaged


class MemoryJournal:
    """Keeps rows as long as it lives."""

    def __init__(self) -> None:
        self._rows: dict[str, tuple[Row, ...]] = {}

    def append(self, rows: Iterable[Row]) -> None:
        """Keep all rows or none. Raises StoreFailed where a row is not the one after the last."""
        kept = dict(self._rows)
        for row in rows:
            before = kept.get(row.session, ())
            if row.seq != len(before) + 1:
                raise StoreFailed(
                    f"Row {row.seq} of session {row.session} does not follow row {len(before)}."
                )
            kept[row.session] = (*before, row)
        self._rows = kept

    def read(self, session: str) -> tuple[Row, ...]:
        """All rows of a session in order. Raises NotThere."""
        if session not in self._rows:
            raise NotThere(f"There is no session {session}.")
        return self._rows[session]

    def salvage(self, session: str) -> Salvaged:
        """All rows of a session; memory is not damaged. Raises NotThere."""
        rows, chain = self.read(session), [START.chain]
        for row in rows:
            chain.append(link(chain[-1], row))
        return Salvaged(rows, tuple(chain[1:]), (), len(rows))

    def sessions(self) -> tuple[str, ...]:
        """Ids of all sessions, oldest first."""
        return tuple(sorted(self._rows, key=lambda session: (self._rows[session][0].at, session)))


def row(session: str, seq: int, at: str = "2031-05-04T08:00:00.000000Z", **body: object) -> Row:
    """A row of type `Noted`, version 1."""
    return Row(session, seq, at, "Noted", 1, body)


def keeps_what_was_appended(journal: Journal) -> None:
    """Rows come back as they were and in order, whatever their bodies hold."""
    rows = (
        row("one", 1, text='quoted " and \\ and \n, µ, 液, \udc80', number=-0.5, none=None),
        row("one", 2, nested={"b": [1, {"a": True}], "": ""}),
        row("one", 3),
    )
    journal.append(rows[:1])
    journal.append(rows[1:])

    assert rows == journal.read("one")
    assert (rows, (), 3) == (
        journal.salvage("one").rows,
        journal.salvage("one").damage,
        journal.salvage("one").last,
    )


def keeps_sessions_apart(journal: Journal) -> None:
    """Each session counts its own rows; the oldest is named first."""
    journal.append([row("late", 1, at="2031-05-05T08:00:00.000000Z")])
    journal.append([row("early", 1), row("late", 2, at="2031-05-05T08:00:01.000000Z"), row("early", 2)])

    assert journal.sessions() == ("early", "late")
    assert journal.read("early") == (row("early", 1), row("early", 2))


def takes_nothing_for_nothing(journal: Journal) -> None:
    """No rows are no session."""
    journal.append([])

    assert journal.sessions() == ()


def tells_of_no_such_session(journal: Journal) -> None:
    """A session that nobody kept is not there, before and after others are."""
    _refuses(NotThere, lambda: journal.read("none"))
    journal.append([row("one", 1)])
    _refuses(NotThere, lambda: journal.read("none"))


def takes_only_the_next_row(journal: Journal) -> None:
    """Rows count from 1: one that is there already or leaves a gap is refused, and what is kept stays."""
    _refuses(StoreFailed, lambda: journal.append([row("one", 2)]))
    journal.append([row("one", 1)])
    _refuses(StoreFailed, lambda: journal.append([row("one", 1, other=True)]))
    _refuses(StoreFailed, lambda: journal.append([row("one", 3)]))

    assert journal.read("one") == (row("one", 1),)


def commits_all_or_none(journal: Journal) -> None:
    """Where one row is refused, none of its company is kept, and the right ones can follow."""
    journal.append([row("one", 1)])
    _refuses(StoreFailed, lambda: journal.append([row("one", 2), row("two", 1), row("one", 2)]))

    assert journal.sessions() == ("one",)
    journal.append([row("one", 2)])
    assert journal.read("one") == (row("one", 1), row("one", 2))


CHECKS: tuple[Callable[[Journal], None], ...] = (
    keeps_what_was_appended,
    keeps_sessions_apart,
    takes_nothing_for_nothing,
    tells_of_no_such_session,
    takes_only_the_next_row,
    commits_all_or_none,
)
"""Each takes a new, empty journal and raises AssertionError where it breaks the contract."""


def _refuses(kind: type[Exception], act: Callable[[], object]) -> None:
    try:
        act()
    except kind:
        return
    raise AssertionError(f"{kind.__name__} was not raised")
