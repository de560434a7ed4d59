"""Opening a database: SQLite so that a commit is on the disk, others as they are."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import URL, Delete, Engine, create_engine, event, text

LOCK_WAIT_S = 2
"""How long a commit waits for another program that holds the database."""


def url_of(file: Path) -> URL:
    """The URL of a SQLite file."""
    return URL.create("sqlite", database=str(file))


def file_of(url: URL) -> Path | None:
    """The SQLite file that a URL names; None for a database that is not a file."""
    is_file = url.get_backend_name() == "sqlite" and url.database not in (None, "", ":memory:")
    return Path(str(url.database)) if is_file else None


def opened(url: URL, *, lasting: bool = True) -> Engine:
    """A database that is connected to when it is first used. Raises ImportError, SQLAlchemyError.

    lasting: SQLite waits for the disk at each commit, so that it outlives power that fails. Without, the last
    ones may be lost, and the file is whole all the same (SQLite, PRAGMA synchronous).
    """
    if url.get_backend_name() != "sqlite":
        return create_engine(url)
    engine = create_engine(url, connect_args={"timeout": LOCK_WAIT_S})
    event.listen(engine, "connect", partial(_set_up, "FULL" if lasting else "NORMAL"))
    return engine


@contextmanager
def copied(file: Path) -> Iterator[Engine]:
    """A copy of a SQLite file whose folder can't be written, with its log.

    SQLite opens such a file itself only without its log, which may hold the last rows.
    """
    with TemporaryDirectory() as folder:
        for part in (file, file.with_name(f"{file.name}-wal")):
            if part.exists():
                shutil.copyfile(part, Path(folder) / part.name)
        engine = opened(url_of(Path(folder) / file.name))
        try:
            yield engine
        finally:
            engine.dispose()


def scrub(engine: Engine, deletion: Delete) -> None:
    """Delete rows. In SQLite what they held is overwritten, the file written anew, and its log truncated."""
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as database:
        if engine.dialect.name != "sqlite":
            database.execute(deletion)
            return
        database.execute(text("PRAGMA secure_delete = ON"))
        database.execute(deletion)
        database.execute(text("VACUUM"))
        database.execute(text("PRAGMA wal_checkpoint(TRUNCATE)"))


def _set_up(synchronous: str, connection: sqlite3.Connection, _record: object) -> None:
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute(f"PRAGMA synchronous = {synchronous}")
    except (sqlite3.Error, UnicodeDecodeError):
        connection.close()
        raise
    connection.text_factory = _text


def _text(stored: bytes) -> str:
    """Text that was damaged is read all the same: the chain tells which row it is."""
    return stored.decode("utf-8", "replace")
