"""`handsfree review`: what is unclear in a checklist, and a rehearsal of it."""

from __future__ import annotations

from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import click

from handsfree.cli.command import Command
from handsfree.cli.session_options import complete_checklist
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.care.checklist import Checklist


@click.command(cls=Command, epilog="handsfree review my_list.toml --rehearse")
@click.argument("checklist", shell_complete=complete_checklist)
@click.option(
    "--ear", type=click.Choice(["vosk", "sphinx"]), help=worded("Whose words count. Default: the best here.")
)
@click.option(
    "--rehearse", is_flag=True, help=worded("Walk through it then, by the keyboard; nothing is kept.")
)
def review(checklist: str, ear: str | None, rehearse: bool) -> None:
    """Tell what is unclear in CHECKLIST, and which of its sentences sound alike.

    A checklist that cannot be used is refused by file and line. What sounds alike can be used: the program
    asks when in doubt, and asks less where sentences are far apart.
    """
    from handsfree.care.checklist_lines import line_of
    from handsfree.review import review as reviewed
    from handsfree.shelf import checklist_from
    from handsfree.wiring import best_ear, make_ear

    known = checklist_from(checklist)
    found = reviewed(known, make_ear(ear or best_ear()))
    for remark in found:
        line = line_of(known.text, remark.kind, remark.name)
        click.echo(f"{known.file}:{line}: {remark.kind} {remark.name} {remark.text}")
    steps = worded("{title}: {number} steps", title=known.title, number=len(known.steps))
    things = worded("{number} things to think about", number=len(found))
    if len(found) == 1:
        things = worded("1 thing to think about")
    click.echo(f"{steps}, {things}.", err=True)
    if rehearse:
        _rehearse(known)


def _rehearse(checklist: Checklist) -> None:
    """A session by the keyboard in a folder of its own, which is gone with it."""
    from pathlib import Path

    from handsfree.rooms import Choices, rooms_for
    from handsfree.sessions import run_new
    from handsfree.shelf import policy_from

    with TemporaryDirectory(prefix="handsfree-") as folder:
        choices = Choices(Path(folder), "typed", "printed", intervals=policy_from("common").intervals)
        with rooms_for(choices) as rooms:
            run_new(checklist, choices, rooms)
