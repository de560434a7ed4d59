"""What went wrong with the store, in one sentence and with the next step."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy.exc import DBAPIError, IntegrityError, SQLAlchemyError

from handsfree.errors import StoreDamaged, StoreFailed
from handsfree.ports import Row
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class _Fault:
    """One kind of fault: the sentence about a store, the next step, and what is said aloud."""

    wrong: str
    next_step: str
    aloud: str


_FULL = _Fault(
    worded("The disk with {store} is full."),
    worded("Free some space, or give another folder with --sessions."),
    worded("The disk is full."),
)
_READ_ONLY = _Fault(
    worded("{store} can't be written: it is read-only."),
    worded("Give a folder that can be with --sessions."),
    worded("The disk is read-only."),
)
_FORBIDDEN = _Fault(
    worded("{store} can't be opened: no permission, or a read-only disk."),
    worded("Give a folder of your own with --sessions."),
    worded("The disk is read-only, or not to be written."),
)
_NO_FOLDER = _Fault(
    worded("{store} can't be made: a part of its path is not a folder."),
    worded("Give a folder with --sessions."),
    worded("The record can't be opened."),
)
_FAILING = _Fault(
    worded("{store} can't be read or written: the disk fails or is full."),
    worded("Give another folder with --sessions."),
    worded("The disk fails, or is full."),
)
_BUSY = _Fault(
    worded("{store} is locked by another program."),
    worded("Close that program and try again."),
    worded("Another program holds the record."),
)
_NOT_OURS = _Fault(
    worded("{store} is damaged or not a database."),
    worded("Move it away, or restore it from a copy."),
    worded("The record is damaged."),
)
_TWO = _Fault(
    worded("Another program writes to the same session in {store}."),
    worded("Close the other one; only one may go on with a session."),
    worded("Another program writes to this session."),
)

_BY_ERRNO = {
    errno.ENOSPC: _FULL,
    errno.EDQUOT: _FULL,
    errno.EROFS: _READ_ONLY,
    errno.EACCES: _FORBIDDEN,
    errno.EPERM: _FORBIDDEN,
    errno.ENOTDIR: _NO_FOLDER,
    errno.EEXIST: _NO_FOLDER,
}
_BY_SQLITE = {
    "SQLITE_FULL": _FULL,
    "SQLITE_READONLY": _READ_ONLY,
    "SQLITE_CANTOPEN": _FORBIDDEN,
    "SQLITE_PERM": _FORBIDDEN,
    "SQLITE_BUSY": _BUSY,
    "SQLITE_LOCKED": _BUSY,
    "SQLITE_IOERR": _FAILING,
    "SQLITE_NOTADB": _NOT_OURS,
    "SQLITE_CORRUPT": _NOT_OURS,
    "SQLITE_ERROR": _NOT_OURS,
}
"""Primary result codes; an extended one begins with the name of its primary one. Our statements have no error
of their own: what SQLite does not understand in them is a schema that was damaged."""


@contextmanager
def told(store: str) -> Iterator[None]:
    """Turn what SQLAlchemy and the system raise into StoreFailed, or StoreDamaged where it is damage."""
    try:
        yield
    except IntegrityError as fault:
        raise _failed(_TWO, store) from fault
    except DBAPIError as fault:
        raise _database_failed(fault.orig or fault, store) from fault
    except sqlite3.Error as fault:
        raise _database_failed(fault, store) from fault
    except UnicodeDecodeError as fault:
        # SQLite quotes a damaged name in what it says, and Python cannot read that.
        raise _failed(_NOT_OURS, store) from fault
    except (SQLAlchemyError, ImportError) as fault:
        raise StoreFailed(
            worded("{store} can't be used: {fault}.", store=store, fault=_line(fault)),
            worded("Check what --store says."),
        ) from fault
    except OSError as fault:
        raise _system_failed(fault, store) from fault


def two_writers(store: str) -> StoreFailed:
    """A row that is there already."""
    return _failed(_TWO, store)


def gap(store: str, row: Row) -> StoreFailed:
    """A row whose forerunner is not there."""
    return StoreFailed(
        worded(
            "{store} lacks the row before row {number} of session {session}.",
            store=store,
            number=row.seq,
            session=row.session,
        ),
        worded("Start a new session."),
    )


def full(store: str) -> StoreFailed:
    """Too little room to keep a session."""
    return _failed(_FULL, store)


def _database_failed(fault: BaseException, store: str) -> StoreFailed:
    name = str(getattr(fault, "sqlite_errorname", ""))
    for primary, known in _BY_SQLITE.items():
        if name.startswith(primary):
            return _failed(known, store)
    return StoreFailed(
        worded("{store} can't be used: {fault}.", store=store, fault=_line(fault)),
        worded("Check the database and try again."),
    )


def _system_failed(fault: OSError, store: str) -> StoreFailed:
    known = _BY_ERRNO.get(fault.errno or 0)
    if known:
        return _failed(known, store)
    return StoreFailed(
        worded("{store} can't be used: {why}.", store=store, why=fault.strerror),
        worded("Give another folder with --sessions."),
    )


def _failed(fault: _Fault, store: str) -> StoreFailed:
    kind = StoreDamaged if fault is _NOT_OURS else StoreFailed
    return kind(fault.wrong.format(store=store), fault.next_step, fault.aloud)


def _line(fault: object) -> str:
    return " ".join(str(fault).split()).rstrip(".")
