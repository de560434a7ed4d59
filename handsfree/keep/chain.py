"""The chain through a session's rows: damage to one shows in its own link, and stays with it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

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
    return _linked(before, _text(row))


def canonical(value: object) -> str:
    """JSON that is the same text for the same value: keys in order, no spaces, ASCII."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False)


@dataclass(frozen=True, slots=True)
class Proof:
    """What the columns of a stored row are. row: None where they are not what was written; then the number
    may be of any type."""

    seq: Any
    chain: str
    row: Row | None


def proven(stored: Iterable[Any]) -> Iterator[Proof]:
    """What each row of a session is, from the columns of the table in order of seq.

    A row may follow the one that is stored before it, the last whole one (where rows are missing between
    them), or what the one before was if only its own link is damaged.
    """
    befores = [START.chain]
    whole = START.chain
    for columns in stored:
        row, text = _row(columns)
        links = [_linked(before, text) for before in befores] if row else []
        chain = str(columns.chain)
        if chain in links:
            whole = chain
            yield Proof(columns.seq, chain, row)
        else:
            yield Proof(columns.seq, chain, None)
        befores = list(dict.fromkeys([chain, whole, *links[:1]]))


def _linked(before: str, text: str) -> str:
    return hashlib.sha256((before + text).encode("utf-8")).hexdigest()


def _text(row: Row) -> str:
    return canonical({field: getattr(row, field) for field in Row.__slots__})


def _row(columns: Any) -> tuple[Row | None, str]:
    """The row and its canonical JSON; None where the columns hold what none ever does."""
    try:
        row = Row(columns.session, columns.seq, columns.at, columns.type, columns.v, json.loads(columns.body))
        return row, _text(row)
    except (TypeError, ValueError):
        return None, ""
