"""Small nouns: files, functions and lists of arguments keep to the sizes of DEVELOPERS.md."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.documents import PACKAGE, ROOT, modules

MOST_LINES, MOST_LINES_OF_A_FUNCTION, MOST_ARGUMENTS = 300, 40, 5

FROM_CLICK = {"cli"}
"""Here the arguments of a function are the options of a command."""

Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(file: Path) -> Iterator[Function]:
    yield from (
        node
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    )


def arguments(function: Function) -> int:
    """How many arguments a caller can give, without self and gathered ones."""
    given = function.args
    names = [one.arg for one in (*given.posonlyargs, *given.args, *given.kwonlyargs)]
    return len([name for name in names if name not in ("self", "cls")])


def shown(file: Path) -> str:
    return file.relative_to(ROOT).as_posix()


TREE = [*(PACKAGE / module for module in modules()), *sorted((ROOT / "tests").rglob("*.py"))]


def test_files_are_small() -> None:
    """No file is longer than 300 lines."""
    lengths = {shown(file): len(file.read_text("utf-8").splitlines()) for file in TREE}

    assert {} == {file: length for file, length in lengths.items() if length > MOST_LINES}


def test_functions_are_short() -> None:
    """No function is longer than 40 lines."""
    long = [
        f"{shown(file)}:{one.name}"
        for file in TREE
        for one in functions(file)
        if (one.end_lineno or one.lineno) - one.lineno + 1 > MOST_LINES_OF_A_FUNCTION
    ]

    assert [] == long


def test_arguments_are_few() -> None:
    """No function of the package takes more than five arguments, but for commands, whose options they are."""
    many = [
        f"{module}:{one.name}"
        for module in modules()
        if module.parts[0] not in FROM_CLICK
        for one in functions(PACKAGE / module)
        if arguments(one) > MOST_ARGUMENTS
    ]

    assert [] == many


def test_nothing_is_called_utils() -> None:
    """A file has a subject, and its name says which."""
    assert [] == [shown(file) for file in TREE if file.stem in ("utils", "util", "helpers", "misc", "common")]


def _public(file: Path) -> Iterator[str]:
    """Names of public functions, classes and methods that say nothing about themselves."""
    for node in ast.parse(file.read_text("utf-8")).body:
        yield from _undocumented(node, "")


def _undocumented(node: ast.stmt, inside: str) -> Iterator[str]:
    if not isinstance(node, Function | ast.ClassDef) or node.name.startswith("_"):
        return
    if not ast.get_docstring(node):
        yield f"{inside}{node.name}"
    for one in node.body if isinstance(node, ast.ClassDef) else ():
        yield from _undocumented(one, f"{node.name}.")


@pytest.mark.parametrize("module", modules(), ids=str)
def test_what_is_public_says_what_it_is(module: Path) -> None:
    """Every module, public class, function and method has a docstring."""
    file = PACKAGE / module

    assert ast.get_docstring(ast.parse(file.read_text("utf-8")))
    assert [] == list(_public(file))
