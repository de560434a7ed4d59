"""One program for one session: a lock that lasts as long as whoever holds it lives."""

from __future__ import annotations

from pathlib import Path

from filelock import FileLock, Timeout

from handsfree.errors import NotSo
from handsfree.words import worded


class Claims:
    """The sessions that this program goes on with. folder: where the lock files lie, one for each session."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._held: dict[str, FileLock] = {}

    def take(self, session: str) -> None:
        """Claim a session, if not done yet. Raises NotSo where another program has it, OSError."""
        if session in self._held:
            return
        lock = FileLock(self._file(session))
        try:
            lock.acquire(blocking=False)
        except Timeout:
            raise NotSo(
                worded("The session {session} is going on in another program.", session=session),
                worded("Close it there, and try again."),
            ) from None
        self._held[session] = lock

    def forget(self, session: str) -> None:
        """Let go of a session that is no more, and remove its lock file. Raises OSError."""
        self._held.pop(session).release()
        self._file(session).unlink(missing_ok=True)

    def drop(self) -> None:
        """Let go of all."""
        for lock in self._held.values():
            lock.release()
        self._held.clear()

    def _file(self, session: str) -> Path:
        return self._folder / f"{session}.lock"
