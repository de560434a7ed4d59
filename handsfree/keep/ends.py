"""The side file: how far each session had come, so that a database that lost its end is noticed."""

from __future__ import annotations

import json
import os
from dataclasses import asdict
from pathlib import Path

from handsfree.errors import StoreDamaged
from handsfree.keep.chain import End
from handsfree.words import worded


class Ends:
    """One small JSON file: session to the end that was last written. It may lag behind the database."""

    def __init__(self, file: Path) -> None:
        self._file = file

    def read(self) -> dict[str, End]:
        """The ends of all sessions, empty where there is no file. Raises StoreDamaged, OSError."""
        try:
            stored = json.loads(self._file.read_bytes()).items()
            return {session: End(int(end["seq"]), str(end["chain"])) for session, end in stored}
        except FileNotFoundError:
            return {}
        except (ValueError, TypeError, LookupError, AttributeError):
            raise StoreDamaged(
                worded("{file} is not what was written.", file=self._file),
                worded("Delete it if the sessions are all there; it only tells how far each had come."),
            ) from None

    def write(self, new: dict[str, End]) -> None:
        """Put new ends beside the others, all or none. Raises StoreDamaged, OSError."""
        self._replace(self.read() | new)

    def drop(self, session: str) -> None:
        """Forget the end of a session. Raises StoreDamaged, OSError."""
        self._replace({other: end for other, end in self.read().items() if other != session})

    def _replace(self, ends: dict[str, End]) -> None:
        text = json.dumps({session: asdict(end) for session, end in ends.items()}, indent=1)
        fresh = self._file.with_name(f"{self._file.name}.{os.getpid()}")
        with fresh.open("w", encoding="ascii") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(self._file)
        _sync_folder(self._file.parent)


def _sync_folder(folder: Path) -> None:
    """Make a new name last; systems other than POSIX have no such call."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
