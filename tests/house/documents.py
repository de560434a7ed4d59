"""The project's own documents, as tests read them."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]

PACKAGE = ROOT / "handsfree"


def blocks(document: str, language: str) -> list[str]:
    """The fenced blocks of one language in a document, in order."""
    text = (ROOT / document).read_text("utf-8")
    return re.findall(rf"^```{language}\n(.*?)^```", text, re.DOTALL | re.MULTILINE)


def modules() -> list[Path]:
    """Every Python file of the package, relative to it."""
    return sorted(file.relative_to(PACKAGE) for file in PACKAGE.rglob("*.py"))
