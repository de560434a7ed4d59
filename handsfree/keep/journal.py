"""The journal in a database: SQLite in the sessions folder, or any that a URL names."""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Select, bindparam, delete, func, insert, inspect, make_url, select

from handsfree.errors import NotThere, StoreDamaged, StoreFailed
from handsfree.keep import faults
from handsfree.keep.chain import START, End, canonical, link
from handsfree.keep.claim import Claims
from handsfree.keep.database import copied, file_of, opened, scrub, url_of
from handsfree.keep.ends import Ends
from handsfree.keep.folder import made
from handsfree.keep.rescue import rescued
from handsfree.keep.salvage import salvaged
from handsfree.keep.table import EVENTS, METADATA
from handsfree.ports import Damage, Row, Salvaged
from handsfree.words import worded

DATABASE = "handsfree.db"

RESTORE = worded("Restore the database from a copy.")

LEFT_IN_SERVER = worded(
    "The database server may hold it still, in its own log, old row versions and backups."
)
"""What erasing cannot reach."""

ROOM_BYTES = 4_000_000
"""Free space without which no session starts: the record, and the sound of a quarter of an hour."""


class SqlJournal:
    """Keeps rows in the table `events`, and in a side file how far each session had come.

    folder: of the sessions, made with the first row. url: of another database, as SQLAlchemy writes it.
    lasting: what `append` returned from outlives power that fails; a simulation can do without the wait, and
    has its side file written when it is closed.
    The rows of a session count from 1 without gaps. Raises StoreFailed for a URL that can't be used.
    """

    def __init__(self, folder: Path, url: str = "", *, lasting: bool = True) -> None:
        self._folder = folder
        self._store = str(folder / DATABASE)
        with faults.told(worded("The database of --store")):
            self._url = make_url(url) if url else url_of(folder / DATABASE)
            self._engine = opened(self._url, lasting=lasting)
        if url:
            self._store = self._url.render_as_string(hide_password=True)
        self._claims = Claims(folder)
        self._ends = Ends(folder / _name_of_ends(url))
        self._lasting, self._ends_ahead = lasting, dict[str, End]()
        self._is_ready = False

    def probe(self) -> None:
        """Refuse now what would fail later: a store without room, or read-only. Raises StoreFailed."""
        with faults.told(self._store):
            made(self._folder)
            if shutil.disk_usage(self._folder).free < ROOM_BYTES:
                raise faults.full(self._store)
            self._ends.write({})
            with self._ready().begin() as database:
                database.execute(_ADD, _columns(Row("", 0, "", "", 0, {}), ""))
                database.execute(delete(EVENTS).where(EVENTS.c.session == ""))

    def claim(self, session: str) -> None:
        """Keep other programs from this session until the journal is closed. Raises NotSo, StoreFailed."""
        with faults.told(self._store):
            made(self._folder)
            self._claims.take(session)

    def append(self, rows: Iterable[Row]) -> None:
        """Commit all rows or none. Raises StoreFailed, also where a row is not the one after the last."""
        with faults.told(self._store), self._ready().begin() as database:
            ends = self._added(database, rows)
        self._ends_ahead |= ends
        if self._lasting:
            self._write_ends()

    def read(self, session: str) -> tuple[Row, ...]:
        """All rows of a session in order. Raises NotThere, StoreFailed, StoreDamaged."""
        found = self.salvage(session)
        if found.damage:
            raise StoreDamaged(found.damage[0].says, RESTORE)
        return found.rows

    def salvage(self, session: str) -> Salvaged:
        """What is whole of a session, and what is not. Raises NotThere, StoreFailed."""
        ends, doubt = self._known_ends()
        end = ends.get(session, START)
        chosen = select(EVENTS).where(EVENTS.c.session == session).order_by(EVENTS.c.seq)
        found = salvaged(session, self._asked(chosen) or (), end)
        if found.damage and file_of(self._url):
            stored = (columns for columns in self._around_damage(ends) if columns.session == session)
            found = salvaged(session, stored, end)
        if not found.rows and not found.damage:
            raise _not_there(session)
        return replace(found, damage=(*found.damage, *doubt))

    def sessions(self) -> tuple[str, ...]:
        """Ids of all sessions, oldest first, then those that only the side file knows.

        Raises StoreFailed; StoreDamaged where a file is there, and nothing that can be read.
        """
        session, first = EVENTS.c.session, func.min(EVENTS.c.at)
        chosen = select(session).group_by(session).order_by(first, session)
        kept = self._asked(chosen)
        ends, _ = self._known_ends()
        if kept is None:
            kept = sorted(self._around_damage(ends), key=lambda columns: str(columns.at))
            if not (kept or ends):
                raise StoreDamaged(worded("Nothing in {store} can be read.", store=self._store), RESTORE)
        # A damaged name may be of any type: its rows are named by what they are missing from.
        names = (columns.session for columns in kept if isinstance(columns.session, str))
        return tuple(dict.fromkeys([*names, *ends]))

    def erase(self, session: str) -> str:
        """Erase a session whole, so that none of it is left in the files; returns what may be left elsewhere.

        Raises NotSo, StoreFailed.
        """
        if session not in self.sessions():
            raise _not_there(session)
        self.claim(session)
        with faults.told(self._store):
            self._ends_ahead.pop(session, None)
            self._ends.drop(session)
            scrub(self._ready(), delete(EVENTS).where(EVENTS.c.session == session))
            self._claims.forget(session)
        return "" if self._engine.dialect.name == "sqlite" else LEFT_IN_SERVER

    def close(self) -> None:
        """Let go of the database, and of what was claimed."""
        self._write_ends()
        self._claims.drop()
        self._engine.dispose()

    def _write_ends(self) -> None:
        """The rows are kept; the side file may lag behind, so its failure must not deny them."""
        with suppress(OSError, StoreDamaged):
            if self._ends_ahead:
                self._ends.write(self._ends_ahead)
                self._ends_ahead = {}

    def _ready(self) -> Engine:
        if not self._is_ready:
            made(self._folder)
            METADATA.create_all(self._engine)
            self._is_ready = True
        return self._engine

    def _added(self, database: Connection, rows: Iterable[Row]) -> dict[str, End]:
        ends: dict[str, End] = {}
        stored: list[dict[str, object]] = []
        for row in rows:
            known = ends.get(row.session) or self._ends_ahead.get(row.session)
            last = known or _last(database, row.session)
            if row.seq <= last.seq:
                raise faults.two_writers(self._store)
            if row.seq > last.seq + 1 and row.seq != self._known_end(row.session) + 1:
                raise faults.gap(self._store, row)
            ends[row.session] = End(row.seq, link(last.chain, row))
            stored.append(_columns(row, ends[row.session].chain))
        if stored:
            database.execute(_ADD, stored)
        return ends

    def _known_end(self, session: str) -> int:
        """The last number that a row of a session is known to have had, though it may be lost."""
        return self._known_ends()[0].get(session, START).seq

    def _known_ends(self) -> tuple[dict[str, End], tuple[Damage, ...]]:
        """What the side file says; without it nobody can tell whether the last rows are there."""
        try:
            with faults.told(self._store):
                return self._ends.read(), ()
        except StoreDamaged as damaged:
            return {}, (Damage(0, 0, str(damaged)),)

    def _asked(self, chosen: Select[Any]) -> Sequence[Any] | None:
        """What is chosen, none where nothing was ever kept; None where the database is damaged."""
        try:
            with faults.told(self._store), self._reading() as database:
                return database.execute(chosen).all() if database else ()
        except StoreDamaged:
            return None

    def _around_damage(self, ends: dict[str, End]) -> list[Any]:
        """All rows that a damaged file still gives. A copy is read: opening the file would change its log."""
        file = file_of(self._url)
        if file is None or not file.exists():
            return []
        places = sum(end.seq for end in ends.values())
        try:
            with faults.told(self._store), copied(file) as engine, engine.connect() as database:
                return rescued(database, places)
        except StoreFailed:
            return []

    @contextmanager
    def _reading(self) -> Iterator[Connection | None]:
        """The database to read from; None where nothing was ever kept."""
        file = file_of(self._url)
        if file and not file.exists():
            yield None
        elif file and not os.access(file.parent, os.W_OK):
            with copied(file) as engine, engine.connect() as database:
                yield database
        else:
            with self._engine.connect() as database:
                yield database if inspect(database).has_table(EVENTS.name) else None


_LAST = (
    select(EVENTS.c.seq, EVENTS.c.chain)
    .where(EVENTS.c.session == bindparam("of"))
    .order_by(EVENTS.c.seq.desc())
    .limit(1)
)
_ADD = insert(EVENTS)
"""Made once: each decision of a session runs both."""


def _last(database: Connection, session: str) -> End:
    found = database.execute(_LAST, {"of": session}).first()
    return End(found.seq, found.chain) if found else START


def _columns(row: Row, chain: str) -> dict[str, object]:
    """The row as the table has it."""
    plain = {name: getattr(row, name) for name in Row.__slots__}
    return {**plain, "body": canonical(row.body), "chain": chain}


def _name_of_ends(url: str) -> str:
    return f"store-{hashlib.sha256(url.encode()).hexdigest()[:12]}.ends" if url else "handsfree.ends"


def _not_there(session: str) -> NotThere:
    return NotThere(
        worded("There is no session {session}.", session=session),
        worded("List those that are there: handsfree sessions."),
    )
