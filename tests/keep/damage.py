"""A real session whose files are cut and flipped: what is read of it is what was written, or it is named."""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from handsfree.keep.journal import SqlJournal
from handsfree.loop import Corridor
from handsfree.ports import Row
from handsfree.record import Record
from handsfree.testing.dialogue import SESSION
from tests.dialogues import WHOLE, told

DATABASE, LOG, ENDS = "handsfree.db", "handsfree.db-wal", "handsfree.ends"

LOG_HEADER, FRAME_HEADER, PAGE = 32, 24, 4096
"""Bytes (SQLite, Database File Format, "The Write-Ahead Log", section 4.1)."""


@dataclass(frozen=True, slots=True)
class Image:
    """The files of a sessions folder, and the rows that were committed to them."""

    database: bytes
    log: bytes
    ends: bytes
    rows: tuple[Row, ...]

    def cuts(self) -> Iterator[int]:
        """Lengths of a log that ends in its header, at each frame, and a byte before and after each."""
        yield from range(LOG_HEADER)
        for end in range(LOG_HEADER, len(self.log) + 1, FRAME_HEADER + PAGE):
            yield from (end - 1, end, end + 1)

    def cut(self, length: int) -> Image:
        """With only so much of its log."""
        return replace(self, log=self.log[:length])

    def flipped(self, file: str, chance: random.Random) -> Image:
        """With one byte of "log" or "database" changed, anywhere."""
        held = bytearray(getattr(self, file))
        held[chance.randrange(len(held))] ^= chance.randint(1, 255)
        return replace(self, **{file: bytes(held)})

    def put(self, folder: Path) -> None:
        """Write the files; what was there before goes."""
        folder.mkdir(exist_ok=True)
        for old in folder.iterdir():
            old.unlink()
        for name, held in ((DATABASE, self.database), (LOG, self.log), (ENDS, self.ends)):
            if held:
                (folder / name).write_bytes(held)


def recorded(folder: Path) -> tuple[Image, Image]:
    """A whole session by the shipped checklist: as power leaves it, all in its log; and closed, without."""
    with closing(SqlJournal(folder)) as journal:

        def change(corridor: Corridor[Any]) -> None:
            corridor.keep = Record(journal, SESSION).keep

        told(*WHOLE, change=change)
        rows = journal.read(SESSION)
        live = _image(folder, rows)
    return live, _image(folder, rows)


def _image(folder: Path, rows: tuple[Row, ...]) -> Image:
    log = folder / LOG
    held = log.read_bytes() if log.exists() else b""
    return Image((folder / DATABASE).read_bytes(), held, (folder / ENDS).read_bytes(), rows)


@dataclass(frozen=True, slots=True)
class Readings:
    """How many images were read, how many of them were not whole, and each row that was wrong or silent."""

    read: int
    hurt: int
    wrong: tuple[str, ...]


def readings(images: Iterable[Image], folder: Path) -> Readings:
    """Read each image in turn."""
    wrong, hurt, number = list[str](), 0, 0
    for number, image in enumerate(images, 1):
        image.put(folder)
        with closing(SqlJournal(folder)) as journal:
            found = journal.salvage(SESSION)
        named = {seq for one in found.damage for seq in range(one.first, one.last + 1)}
        delivered = {row.seq: row for row in found.rows}
        hurt += bool(found.damage)
        wrong += [
            f"image {number}: row {row.seq}"
            for row in image.rows
            if delivered.get(row.seq, row) != row or (row.seq in delivered) == (row.seq in named)
        ]
    return Readings(number, hurt, tuple(wrong))
