"""A file that is written whole or not at all: until it is whole, it has the name of an unfinished one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def whole(place: Path) -> Iterator[Path]:
    """Yield where to write: NAME.part, which takes the place of NAME at the end if nothing went wrong.

    A program that is killed leaves it behind, and NAME as it was. A device or a pipe takes what comes as it
    comes, and stays what it is. Raises OSError.
    """
    if place.exists() and not place.is_file():
        yield place
        return
    place = place.resolve()  # a link stays one
    unfinished = place.with_name(f"{place.name}.part")
    try:
        yield unfinished
        unfinished.replace(place)
    finally:
        unfinished.unlink(missing_ok=True)
