"""Rows out of a damaged SQLite file, from the table alone: no index is asked, and no bad page stops it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, Select, func, literal_column, select
from sqlalchemy.exc import SQLAlchemyError

from handsfree.keep.table import EVENTS

_PLACE: Any = literal_column("events.rowid").label("place")

_TOGETHER = 200
"""So many rows are read at once, and one by one where that fails."""

_MOST = 1_000_000
"""A damaged number of places is not believed beyond this."""


def rescued(database: Connection, places: int) -> list[Any]:
    """The columns of all rows that can be read, in order of seq. places: how many there were at least."""
    places = max(places, min(_last_place(database), _MOST))
    sound = (one for one in _rows(database, places) if isinstance(one.seq, int))
    return sorted(sound, key=lambda columns: columns.seq)


def _rows(database: Connection, places: int) -> Iterator[Any]:
    every, place = select(EVENTS, _PLACE).order_by(_PLACE).limit(_TOGETHER), 0
    while True:
        rows = _read(database, every.where(place < _PLACE))
        if rows:
            yield from rows
            place = rows[-1].place
        elif rows is not None or place > places:
            return
        else:
            for one in range(place + 1, place + _TOGETHER + 1):
                yield from _read(database, every.where(one == _PLACE)) or ()
            place += _TOGETHER


def _read(database: Connection, chosen: Select[Any]) -> Sequence[Any] | None:
    """None where that part of the file can't be read."""
    try:
        return database.execute(chosen).all()
    except SQLAlchemyError:
        return None


def _last_place(database: Connection) -> int:
    found = _read(database, select(func.max(_PLACE)).select_from(EVENTS))
    return int(found[0][0] or 0) if found else 0
