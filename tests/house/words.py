"""Every sentence that the program can say or show, and those that stand outside the catalogue.

    python -m tests.house.words            what stands outside, a line each
    python -m tests.house.words --write    makes handsfree/words.pot anew

Read as a program: Babel's reader, which only knows tokens, misses what stands within an f-string.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import click
import polib
from jinja2 import Environment, nodes

from handsfree.care.infusion.formulas import SUBJECTS
from handsfree.cli.group import handsfree
from handsfree.words import IN_SCRIPT, places
from tests.house.documents import PACKAGE, modules

CATALOGUE = PACKAGE / "words.pot"

MOST_WORDS = 3
"""Longer than this is a sentence."""

HEAD = {
    "Project-Id-Version": "handsfree",
    "Language": "",
    "MIME-Version": "1.0",
    "Content-Type": "text/plain; charset=UTF-8",
    "Content-Transfer-Encoding": "8bit",
}


@dataclass(frozen=True)
class Sentence:
    """One that stands outside. file: within the package."""

    file: str
    line: int
    text: str


def gathered() -> Mapping[str, list[str]]:
    """What is worded anywhere, with the files that it stands in."""
    found: dict[str, list[str]] = {}
    for file, text in sorted([*_in_code(), *_in_pages(), *_in_help(), *_in_formulas()]):
        files = found.setdefault(text, [])
        if file not in files:
            files.append(file)
    return found


def written() -> str:
    """The catalogue as gettext has it."""
    file = polib.POFile(wrapwidth=100)
    file.metadata = HEAD
    for text, files in gathered().items():
        flags = ["python-brace-format"] if places(text) else []
        file.append(polib.POEntry(msgid=text, occurrences=[(one, "") for one in files], flags=flags))
    return f"{file}\n"


def outside() -> list[Sentence]:
    """Those of the whole package; its fakes say nothing to anybody."""
    code = [file.as_posix() for file in modules() if file.parts[0] != "testing"]
    return [
        *(one for file in code for one in loose((PACKAGE / file).read_text("utf-8"), file)),
        *(one for file in _pages() for one in bare((PACKAGE / file).read_text("utf-8"), file)),
    ]


def loose(source: str, file: str) -> Iterator[Sentence]:
    """The sentences of one module that nobody looks up; documentation strings are none."""
    tree = ast.parse(source)
    spared = {id(part) for node in ast.walk(tree) if _is_spared(node) for part in ast.walk(node)}
    for node, text in _texts(tree):
        if id(node) not in spared and _words(text) > MOST_WORDS:
            yield Sentence(file, node.lineno, text)


def bare(page: str, file: str) -> Iterator[Sentence]:
    """Words of a page, and of its attributes that are read, which stand there as they are."""
    markup = re.sub(r"{[{%#].*?[}%#]}", lambda place: "\n" * place[0].count("\n"), page, flags=re.DOTALL)
    for number, line in enumerate(markup.splitlines(), 1):
        shown = re.findall(r'(?:aria-label|title|alt|placeholder)="([^"]*)"', line)
        for text in (*shown, *re.split(r"<[^>]*>", line)):
            if re.search("[A-Za-z]{2}", text) and not file.endswith((".js", ".css")):
                yield Sentence(file, number, text.strip())


def unfilled() -> Iterator[Sentence]:
    """Sentences that get other parts than they have places; `**parts` are not looked into."""
    for file, text, call in _calls():
        parts = {one.arg for one in call.keywords}
        if parts and None not in parts and parts != {name for name, *_ in places(text)}:
            yield Sentence(file, call.lineno, text)


def _calls() -> Iterator[tuple[str, str, ast.Call]]:
    for file in modules():
        for node in ast.walk(ast.parse((PACKAGE / file).read_text("utf-8"))):
            match node:
                case ast.Call(func=ast.Name("worded"), args=[ast.Constant(str(text))]):
                    yield file.as_posix(), text, node


def _in_code() -> Iterator[tuple[str, str]]:
    yield from ((file, text) for file, text, _ in _calls())


def _in_pages() -> Iterator[tuple[str, str]]:
    for file in _pages():
        text = (PACKAGE / file).read_text("utf-8")
        if file.endswith(".js"):
            yield from ((file, one) for one in IN_SCRIPT.findall(text))
            continue
        for call in Environment().parse(text).find_all(nodes.Call):
            match call:
                case nodes.Call(node=nodes.Name(name="worded"), args=[nodes.Const(value=str(one))]):
                    yield file, one


def _in_help(command: click.Command = handsfree) -> Iterator[tuple[str, str]]:
    """The documentation of a command's function is its help."""
    if command.callback and command.help and command.callback.__doc__:
        yield f"{command.callback.__module__.replace('.', '/')}.py".removeprefix("handsfree/"), command.help
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            within = command.get_command(context, name)
            assert within is not None
            yield from _in_help(within)


def _in_formulas() -> Iterator[tuple[str, str]]:
    """The names of what formulas give."""
    for formulas in SUBJECTS.values():
        yield from (("care/infusion/formulas.py", one.gives) for one in formulas)


def _pages() -> list[str]:
    """Templates, pages and scripts."""
    files = [file for kind in ("*.j2", "*.html", "*.js") for file in (PACKAGE / "show").rglob(kind)]
    return sorted(file.relative_to(PACKAGE).as_posix() for file in files)


def _is_spared(node: ast.AST) -> bool:
    """What is looked up, documentation, and an error that only a programmer meets."""
    match node:
        case ast.Call(func=ast.Name("worded")) | ast.Expr(value=ast.Constant()) | ast.Assert():
            return True
        case ast.Raise(exc=ast.Call(func=ast.Name(error))):
            return error in {"ValueError", "TypeError", "KeyError", "AssertionError", "RuntimeError"}
        case _:
            return False


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


if __name__ == "__main__":
    if "--write" in sys.argv:
        CATALOGUE.write_text(written(), "utf-8")
    for one in outside():
        print(f"handsfree/{one.file}:{one.line}\t{one.text!r}")
