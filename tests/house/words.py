"""Every sentence that the program can say or show, with its place: where another language begins.

    python -m tests.house.words

What people hear and see of a session stands in the wording (`handsfree/say/wording*.py`; what is refused, in
`handsfree/care/refusals.py`), in templates and TOML files. Beside them, a sentence is the argument of an
error, of a refusal of the arithmetic, or of an option. Whatever else is found is loose.
"""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from handsfree import errors
from tests.house.documents import PACKAGE, modules

MOST_WORDS = 3
"""Longer than this is a sentence."""

TOLD_BY = {
    *(name for name, one in vars(errors).items() if inspect.isclass(one)),
    *("Refused", "option", "argument", "command", "group", "BadParameter", "_Entry"),
}
"""Calls whose arguments are words for people by trade: errors, refusals of the arithmetic, help."""


@dataclass(frozen=True)
class Sentence:
    """kind: "wording", "told" (argument of an error, or of an option), or "loose"."""

    file: str
    line: int
    kind: str
    text: str


def sentences(source: str, file: str) -> Iterator[Sentence]:
    """Those of one module, in order of their kinds; documentation strings are none."""
    tree = ast.parse(source)
    told = {id(one) for node in ast.walk(tree) if _tells(node) for one in ast.walk(node)}
    documentation = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node, text in _texts(tree):
        if id(node) not in documentation and _words(text) > MOST_WORDS:
            wording = Path(file).name.startswith("wording") or file == "care/refusals.py"
            kind = "wording" if wording else "told" if id(node) in told else "loose"
            yield Sentence(file, node.lineno, kind, text)


def _words(text: str) -> int:
    return sum(re.search("[A-Za-z]{2}", word) is not None for word in text.split())


def _texts(tree: ast.Module) -> Iterator[tuple[ast.expr, str]]:
    """Every text, whole: one with places to be filled has {} in them."""
    filled = [node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)]
    parts = {id(part) for node in filled for part in node.values}
    for node in filled:
        yield node, "".join(str(one.value) if isinstance(one, ast.Constant) else "{}" for one in node.values)
    for one in ast.walk(tree):
        if isinstance(one, ast.Constant) and isinstance(one.value, str) and id(one) not in parts:
            yield one, one.value


def _tells(node: ast.AST) -> bool:
    if isinstance(node, ast.Raise):
        return True
    name = ast.unparse(node.func).rpartition(".")[2] if isinstance(node, ast.Call) else ""
    return name in TOLD_BY


def catalogue() -> list[Sentence]:
    """Those of the whole package; its fakes say nothing to anybody."""
    files = [module for module in modules() if module.parts[0] != "testing"]
    return [one for file in files for one in sentences((PACKAGE / file).read_text("utf-8"), file.as_posix())]


if __name__ == "__main__":
    for one in catalogue():
        print(f"handsfree/{one.file}:{one.line}\t{one.kind}\t{one.text!r}")
