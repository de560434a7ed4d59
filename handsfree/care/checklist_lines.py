"""A checklist's TOML text, and on which line each of its tables begins."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from handsfree.errors import ChecklistError
from handsfree.words import worded

SEE = worded("See docs/own-checklist.md for what can stand here.")
_TOML_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")


def line_of(text: str, kind: str, name: str) -> int:
    """The line on which the step, finding or emergency of that name begins; 0 where there is none."""
    return next((line for what, named, line in Lines(text, "").tables if what == kind and named == name), 0)


def toml(text: str, file: str) -> dict[str, Any]:
    """The tables of a text. Raises ChecklistError by file and line."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        place = _TOML_PLACE.search(str(fault))
        line = int(place[1]) if place else text.count("\n") + 1
        raise ChecklistError(
            file, line, worded("not TOML: {fault}.", fault=fault), worded("Mend this line and start again.")
        ) from None


class Lines:
    """Where the tables of a TOML text begin: kind ("step"), name and line of each, in order."""

    def __init__(self, text: str, file: str) -> None:
        self.file = file
        self.tables = list(self._found(text.splitlines()))

    @staticmethod
    def _found(lines: list[str]) -> Iterator[tuple[str, str, int]]:
        heads = [
            (i, head[1].split(".")[-1])
            for i, line in enumerate(lines)
            if (head := re.match(r"\s*\[(?=\[|begin\]\s*$)\[?\s*([\w.]+)\s*\]\]?", line))
        ]
        for (start, kind), (end, _) in pairwise([*heads, (len(lines), "")]):
            names = (re.match(r'\s*name\s*=\s*["\'](.*)["\']', line) for line in lines[start:end])
            yield kind, next((name[1] for name in names if name), ""), start + 1

    def line(self, kind: str, index: int) -> int:
        """Line of the n-th table of a kind; 1 for the file itself."""
        found = [line for what, _, line in self.tables if what == kind]
        return found[index] if index < len(found) else 1

    def named(self, kind: str, name: str) -> int:
        """Line of the last table of that name."""
        found = [line for what, named, line in self.tables if (what, named) == (kind, name)]
        return found[-1] if found else 1

    def fault(self, line: int, wrong: str, next_step: str = SEE) -> ChecklistError:
        """An error at a line."""
        return ChecklistError(self.file, line, wrong, next_step)
