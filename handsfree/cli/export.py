"""`handsfree export`: a session as plain files."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import click

_PATH = click.Path(path_type=Path)


@click.command(epilog="Example: handsfree export last --out exported")
@click.argument("session")
@click.option("--out", type=_PATH, metavar="DIR", required=True, help="Where the files are written.")
@click.option("--sessions", type=_PATH, metavar="DIR", help="Where sessions are kept.")
@click.option("--store", default="", metavar="URL", help="Another database (SQLAlchemy URL).")
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
    click.echo(f"Written to {out}: {', '.join(sorted(file.name for file in out.iterdir()))}.", err=True)
