"""`handsfree export`: a session as plain files."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import click

from handsfree.cli.command import Command
from handsfree.cli.session_options import sessions_option, store_option
from handsfree.words import worded

_PATH = click.Path(path_type=Path)


@click.command(cls=Command, epilog="handsfree export last --out exported")
@click.argument("session")
@click.option("--out", type=_PATH, metavar="DIR", required=True, help=worded("Where the files are written."))
@sessions_option
@store_option
def export(session: str, out: Path, sessions: Path | None, store: str) -> None:
    """Write record, events, captions, marks and sound of SESSION as plain files.

    SESSION is an id, or "last". What is damaged is named; the rest is written.
    """
    from handsfree.export import copy_sound
    from handsfree.export import export as exported
    from handsfree.record import named
    from handsfree.shelf import emergencies
    from handsfree.wiring import open_journal, sessions_folder

    folder = sessions or sessions_folder()
    with closing(open_journal(folder, store)) as journal:
        session = named(journal, session)
        damage = exported(journal, session, emergencies(), folder, out)
    copy_sound(folder, session, out)
    for one in damage:
        click.echo(one, err=True)
    click.echo(
        worded(
            "Written to {out}: {files}.",
            out=out,
            files=", ".join(sorted(file.name for file in out.iterdir())),
        ),
        err=True,
    )
