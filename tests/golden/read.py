"""Golden files: what people read and hear, as it was when somebody looked it over."""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent


def golden(name: str, now: str) -> str:
    """The text of a golden file. With GOLDEN=write in the environment it is written as it reads now."""
    file = FOLDER / name
    if os.environ.get("GOLDEN") == "write":
        file.write_bytes(now.encode())
    return file.read_bytes().decode()
