"""`handsfree guide`, `resume` and `demo`: a session by voice."""

from __future__ import annotations

import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import click

from handsfree.cli.command import Command
from handsfree.cli.session_options import (
    SessionCommand,
    chosen,
    complete_checklist,
    session_options,
    sessions_option,
)
from handsfree.cli.set_up import after_first_run
from handsfree.say.wording_machine import kept_as
from handsfree.words import worded


@click.command(cls=SessionCommand, epilog="handsfree guide peripheral_iv --ear vosk")
@click.argument("checklist", default="peripheral_iv", shell_complete=complete_checklist)
@session_options
def guide(checklist: str, **options: Any) -> None:
    """Walk through a checklist by voice.

    CHECKLIST is a built-in name (default: peripheral_iv; any other name lists them), or a TOML file of
    your own.
    """
    from handsfree.rooms import rooms_for
    from handsfree.shelf import checklist_from

    read = checklist_from(checklist)
    choices = chosen(**after_first_run(options))
    with rooms_for(choices) as rooms:
        from handsfree.sessions import run_new

        _, record = run_new(read, choices, rooms)
    click.echo(kept_as(record.session, choices.sessions), err=True)


@click.command(cls=SessionCommand, epilog="handsfree resume --ear vosk")
@click.argument("session", default="last")
@session_options
def resume(session: str, **options: Any) -> None:
    """Go on with the session that was cut off. SESSION is an id; without one, the last."""
    from handsfree.rooms import rooms_for

    choices = chosen(**options)
    with rooms_for(choices) as rooms:
        from handsfree.sessions import run_cut_off

        _, record = run_cut_off("" if session == "last" else session, choices, rooms)
    click.echo(kept_as(record.session, choices.sessions), err=True)


@click.command(cls=Command, epilog="handsfree demo --ear sphinx")
@click.option("--ear", type=click.Choice(["vosk", "sphinx"]), help=worded("Default: the best one here."))
@click.option(
    "--scene",
    type=click.Choice(["aid_station", "lock_only"]),
    default="aid_station",
    show_default=True,
    help=worded("Which recorded person answers."),
)
@sessions_option
def demo(ear: str | None, scene: str, sessions: Path | None) -> None:
    """Run the main job on bundled recordings: no microphone, no loudspeaker, no download."""
    from handsfree.export import record_of
    from handsfree.record import load
    from handsfree.sessions import run_demo
    from handsfree.shelf import emergencies
    from handsfree.show.record_files import record_text
    from handsfree.wiring import open_journal

    choices = chosen(ear=ear, voice="printed", sessions=sessions)
    _, record = run_demo(scene, choices, sys.stdout)
    with closing(open_journal(choices.sessions, "")) as journal:
        kept = load(journal, record.session, emergencies())
    click.echo()
    for line in record_text(*record_of(kept)):
        click.echo(line)
    click.echo()
    click.echo(kept_as(record.session, choices.sessions))
