"""Events as JSON and back, driven by the fields of their dataclasses."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from handsfree.errors import StoreDamaged
from handsfree.keep.fields import reader, written
from handsfree.ports import Row
from handsfree.words import worded


class Codec:
    """Writes events of the given classes and reads them back.

    The type of an event is the name of its class; its schema version is the class attribute VERSION, 1 where
    it has none. Raises TypeError for a class with a field that `fields.reader` does not know.
    """

    def __init__(self, events: Iterable[type]) -> None:
        self._readers = {_key(event): reader(event) for event in events}

    def encode(self, event: object) -> tuple[str, int, dict[str, object]]:
        """Type, version and body of an event, the last three fields of its Row.

        Raises KeyError for an event of an unknown class, ValueError for a time without a zone.
        """
        name, version = _key(type(event))
        if (name, version) not in self._readers:
            raise KeyError(name)
        return name, version, written(event)

    def decode(self, row: Row) -> Any:
        """The event of a row. Raises StoreDamaged, naming the row, where it is not one that was written."""
        read = self._readers.get((row.type, row.v))
        if read is None:
            raise _damaged(
                row,
                worded(
                    "is of a kind that this version does not know: {type}, version {version}.",
                    type=row.type,
                    version=row.v,
                ),
            )
        try:
            return read(row.body)
        except ValueError as fault:
            raise _damaged(
                row, worded("can't be read as {type}: {fault}.", type=row.type, fault=fault)
            ) from None


def _key(event: type) -> tuple[str, int]:
    return event.__name__, getattr(event, "VERSION", 1)


def _damaged(row: Row, wrong: str) -> StoreDamaged:
    return StoreDamaged(
        worded("Row {seq} of session {session} {wrong}", seq=row.seq, session=row.session, wrong=wrong),
        worded("Read it with the version of handsfree that wrote it, or restore the database from a copy."),
    )
