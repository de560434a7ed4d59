"""`handsfree drill`: an instructor marks by voice what a trainee does."""

from __future__ import annotations

import re
from typing import Any

import click

from handsfree.cli.session_options import SessionCommand, chosen, complete_checklist, session_options
from handsfree.cli.set_up import after_first_run
from handsfree.say.wording_machine import kept_as
from handsfree.words import worded

_NAME = re.compile(r"[A-Za-z]+(?:[ '-][A-Za-z]+)*")


def _names(ctx: click.Context, option: click.Parameter, value: str) -> tuple[str, ...]:
    """Names, between commas."""
    names = tuple(" ".join(name.split()) for name in value.split(",") if name.strip())
    wrong = next((name for name in names if not _NAME.fullmatch(name)), None)
    if wrong is not None:
        raise click.BadParameter(worded("{name} is no name of letters alone.", name=wrong), ctx, option)
    return names


@click.command(cls=SessionCommand, epilog="handsfree drill peripheral_iv --trainees Anna,Ben")
@click.argument("checklist", default="peripheral_iv", shell_complete=complete_checklist)
@session_options
@click.option(
    "--trainees", callback=_names, default="", metavar="NAMES", help=worded("Who can be named, by commas.")
)
@click.option("--no-sound", is_flag=True, help=worded("Keep no sound, marks alone."))
def drill(checklist: str, trainees: tuple[str, ...], no_sound: bool, **options: Any) -> None:
    """Record a drill with timed marks. CHECKLIST is a built-in name or a TOML file of your own.

    Say "go" when it begins, and what you see: "tourniquet on, missed". All that can be said: docs/drill.md.
    """
    from handsfree.rooms import rooms_for
    from handsfree.shelf import checklist_from

    read = checklist_from(checklist)
    choices = chosen(**after_first_run(options), kind="drill", trainees=trainees, sound=not no_sound)
    with rooms_for(choices) as rooms:
        from handsfree.sessions import run_new

        _, record = run_new(read, choices, rooms)
    click.echo(kept_as(record.session, choices.sessions), err=True)
