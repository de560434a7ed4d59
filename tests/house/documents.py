"""The project's own documents, as tests read them."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import click

from handsfree.cli.group import handsfree

ROOT = Path(__file__).parents[2]

PACKAGE = ROOT / "handsfree"

_BLOCK = re.compile(
    r"^(?:<!-- (?P<mark>[^\n]+) -->\n)?```(?P<language>\w+)\n(?P<text>.*?)^```", re.DOTALL | re.MULTILINE
)


@dataclass(frozen=True)
class Block:
    """A fenced block. mark: the comment on the line before it, empty for none."""

    language: str
    text: str
    mark: str


def marked_blocks(document: str) -> list[Block]:
    """Every fenced block of a document, in order."""
    found = _BLOCK.finditer((ROOT / document).read_text("utf-8"))
    return [Block(one["language"], one["text"], one["mark"] or "") for one in found]


def blocks(document: str, language: str) -> list[str]:
    """The fenced blocks of one language in a document, in order."""
    return [one.text for one in marked_blocks(document) if one.language == language]


def modules() -> list[Path]:
    """Every Python file of the package, relative to it."""
    return sorted(file.relative_to(PACKAGE) for file in PACKAGE.rglob("*.py"))


def transcript(text: str) -> Iterator[tuple[str, str]]:
    """Each command behind `$ ` in a block, and what the page says that it prints."""
    for part in re.split(r"^\$ ", text, flags=re.MULTILINE)[1:]:
        command, _, printed = part.partition("\n")
        yield command, printed


def fresh(folder: Path) -> dict[str, str]:
    """The environment of somebody who never ran the program, at home in `folder`, in a clone's neighbourhood.

    What a page names of the repository is linked into the folder: it is read, never written.
    """
    for name in ("grammars", "audio_fixtures"):
        (folder / name).symlink_to(ROOT / name)
    ours = {name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "HANDSFREE_"))}
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    return ours | {"HOME": str(folder / "home"), "PATH": path, "PYTHONPATH": str(ROOT)}


def shell(line: str, folder: Path, environment: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Run one line as a reader types it; what it prints on either side comes in one text."""
    return subprocess.run(
        ["bash", "-c", line],
        cwd=folder,
        env=environment,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        stdin=subprocess.DEVNULL,
        timeout=200,
        check=False,
    )


def understood(line: str) -> bool:
    """Whether a line is a command of the program with arguments that it takes; it is not run."""
    _, *names = shlex.split(line)
    command: click.Command = handsfree
    context = click.Context(handsfree)
    while isinstance(command, click.Group) and names:
        found = command.get_command(context, names.pop(0))
        if found is None:
            return False
        command = found
    return bool(command.make_context(command.name, names))
