"""`handsfree new-checklist`: a checklist to start from."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import click

from handsfree.cli.command import Command
from handsfree.words import worded


@click.command(cls=Command, epilog="handsfree new-checklist wound_wash.toml")
@click.argument("file", type=click.Path(path_type=Path))
def new_checklist(file: Path) -> None:
    """Write FILE, a small checklist with every key explained, to be changed into your own."""
    from handsfree.errors import WrongUse
    from handsfree.wiring import resources

    name = re.sub(r"\W+", "_", file.stem.lower(), flags=re.ASCII).strip("_")
    if file.suffix != ".toml" or not re.match("[a-z]", name):
        raise WrongUse(
            worded("{file} is no name for a checklist.", file=file),
            worded("Begin it with a letter and end it with .toml."),
        )
    text = (resources().checklists / "new" / "checklist.toml").read_text("utf-8")
    try:
        with file.open("x", encoding="utf-8", newline="\n") as new:
            new.write(text.replace('name = "new"', f'name = "{name}"', 1))
    except FileExistsError:
        raise WrongUse(worded("{file} is there already.", file=file), worded("Name another file.")) from None
    click.echo(
        worded("Written. Change it, then: handsfree review {file} --rehearse", file=shlex.quote(str(file))),
        err=True,
    )
