"""The folder of sessions: closed to other accounts of the machine, since records of patients lie in it."""

from __future__ import annotations

from pathlib import Path

OWN = 0o700
"""Its owner alone may look into it."""


def made(folder: Path) -> None:
    """Make a folder where there is none; one that is there stays as open as it is. Raises OSError."""
    folder.mkdir(mode=OWN, parents=True, exist_ok=True)
