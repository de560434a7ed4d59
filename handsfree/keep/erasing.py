"""Sound that is erased for good: overwritten, then removed.

A disk of flash memory, or a file system that copies what it writes, may keep what was overwritten: only an
encrypted disk is sure.
"""

from __future__ import annotations

import os
from pathlib import Path

from handsfree.errors import StoreFailed
from handsfree.words import worded

_PIECE = bytes(1 << 20)


def erase_sound(folder: Path, session: str) -> bool:
    """Erase all sound of a session; returns whether there was some.

    folder: the sessions folder. Raises StoreFailed.
    """
    kept = folder / "sound"
    try:
        if not kept.is_dir() or session not in {one.name for one in kept.iterdir()}:
            return False
        for parent, folders, files in os.walk(kept / session, topdown=False):
            for name in files:
                _erase(Path(parent, name))
            for inner in (Path(parent, name) for name in folders):
                (_erase if inner.is_symlink() else Path.rmdir)(inner)
        (kept / session).rmdir()
    except OSError as fault:
        raise StoreFailed(
            worded(
                "The sound of {session} in {folder} can't be erased: {why}.",
                session=session,
                folder=kept / session,
                why=fault.strerror,
            ),
            worded("Close what uses it, see who may write there, and erase it again."),
        ) from fault
    return True


def _erase(file: Path) -> None:
    if not file.is_symlink():
        with file.open("r+b", buffering=0) as held:
            left = os.fstat(held.fileno()).st_size
            while left > 0:
                left -= held.write(_PIECE[:left])
            os.fsync(held.fileno())
    file.unlink()
