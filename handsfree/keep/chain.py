"""The chain through a session's rows: damage to one shows in its own link."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from handsfree.errors import StoreDamaged
from handsfree.ports import Row


@dataclass(frozen=True, slots=True)
class End:
    """How far a session has come: its last row, and that row's link in the chain."""

    seq: int
    chain: str


START = End(0, "")
"""Where a session stands before its first row, which has seq 1."""


def link(before: str, row: Row) -> str:
    """SHA-256, hex, over the link before and, right after it, the row as canonical JSON.

    Raises ValueError for a number that JSON does not have, TypeError for a value that it does not have.
    """
    return hashlib.sha256((before + canonical(asdict(row))).encode("ascii")).hexdigest()


def canonical(value: object) -> str:
    """JSON that is the same text for the same value: keys in order, no spaces, ASCII."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False)


def verified(session: str, stored: Iterable[Any]) -> tuple[tuple[Row, ...], tuple[str, ...]]:
    """Rows of a session and their links, from the columns of the table in order of seq.

    Raises StoreDamaged with the first row that is missing or not what was written.
    """
    rows: list[Row] = []
    links = [START.chain]
    for seq, columns in enumerate(stored, START.seq + 1):
        row = _row(columns)
        if row is None or row.seq != seq or _broken(links[-1], row, columns.chain):
            raise StoreDamaged(
                f"Row {seq} of session {session} is not what was written; those before it are.",
                "Restore the database from a copy.",
            )
        rows.append(row)
        links.append(columns.chain)
    return tuple(rows), tuple(links[1:])


def _row(columns: Any) -> Row | None:
    try:
        body = json.loads(columns.body)
    except (TypeError, ValueError):
        return None
    return Row(columns.session, columns.seq, columns.at, columns.type, columns.v, body)


def _broken(before: str, row: Row, chain: str) -> bool:
    try:
        return link(before, row) != chain
    except (TypeError, ValueError):
        return True
