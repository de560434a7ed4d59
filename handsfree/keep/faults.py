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


@dataclass(frozen=True, slots=True)
class _Fault:
    """One kind of fault: the sentence about a store, the next step, and what is said aloud."""

    wrong: str
    next_step: str
    aloud: str


_FULL = _Fault(
    "The disk with {store} is full.",
    "Free some space, or give another folder with --sessions.",
    "The disk is full.",
)
_READ_ONLY = _Fault(
    "{store} can't be written: it is read-only.",
    "Give a folder that can be with --sessions.",
    "The disk is read-only.",
)
_FORBIDDEN = _Fault(
    "{store} can't be opened: no permission, or a read-only disk.",
    "Give a folder of your own with --sessions.",
    "The disk is read-only, or not to be written.",
)
_NO_FOLDER = _Fault(
    "{store} can't be made: a part of its path is not a folder.",
    "Give a folder with --sessions.",
    "The record can't be opened.",
)
_FAILING = _Fault(
    "{store} can't be read or written: the disk fails or is full.",
    "Give another folder with --sessions.",
    "The disk fails, or is full.",
)
_BUSY = _Fault(
    "{store} is locked by another program.",
    "Close that program and try again.",
    "Another program holds the record.",
)
_NOT_OURS = _Fault(
    "{store} is damaged or not a database.",
    "Move it away, or restore it from a copy.",
    "The record is damaged.",
)
_TWO = _Fault(
    "Another program writes to the same session in {store}.",
    "Close the other one; only one may go on with a session.",
    "Another program writes to this session.",
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
        raise StoreFailed(f"{store} can't be used: {_line(fault)}.", "Check what --store says.") from fault
    except OSError as fault:
        raise _system_failed(fault, store) from fault


def two_writers(store: str) -> StoreFailed:
    """A row that is there already."""
    return _failed(_TWO, store)


def gap(store: str, row: Row) -> StoreFailed:
    """A row whose forerunner is not there."""
    return StoreFailed(
        f"{store} lacks the row before row {row.seq} of session {row.session}.", "Start a new session."
    )


def full(store: str) -> StoreFailed:
    """Too little room to keep a session."""
    return _failed(_FULL, store)


def _database_failed(fault: BaseException, store: str) -> StoreFailed:
    name = str(getattr(fault, "sqlite_errorname", ""))
    for primary, known in _BY_SQLITE.items():
        if name.startswith(primary):
            return _failed(known, store)
    return StoreFailed(f"{store} can't be used: {_line(fault)}.", "Check the database and try again.")


def _system_failed(fault: OSError, store: str) -> StoreFailed:
    known = _BY_ERRNO.get(fault.errno or 0)
    if known:
        return _failed(known, store)
    return StoreFailed(f"{store} can't be used: {fault.strerror}.", "Give another folder with --sessions.")


def _failed(fault: _Fault, store: str) -> StoreFailed:
    kind = StoreDamaged if fault is _NOT_OURS else StoreFailed
    return kind(fault.wrong.format(store=store), fault.next_step, fault.aloud)


def _line(fault: object) -> str:
    return " ".join(str(fault).split()).rstrip(".")
