"""`handsfree debrief`: the page to go through sessions with afterwards."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import click

_PATH = click.Path(path_type=Path)


@click.command(epilog="Example: handsfree debrief last --out page.html")
@click.argument("session", nargs=-1, required=True)
@click.option(
    "--out", type=_PATH, metavar="PAGE.html", help="Default: debrief.html, here.", default="debrief.html"
)
@click.option("--sessions", type=_PATH, metavar="DIR", help="Where sessions are kept.")
@click.option("--store", default="", metavar="URL", help="Another database (SQLAlchemy URL).")
def debrief(session: tuple[str, ...], out: Path, sessions: Path | None, store: str) -> None:
    """Make the debrief page of SESSION, or of several side by side.

    SESSION is an id, or "last". The page is one file that holds the sound too, and needs no network.
    """
    from handsfree.debrief import runs_of, write_page
    from handsfree.shelf import emergencies
    from handsfree.wiring import open_journal, sessions_folder

    folder = sessions or sessions_folder()
    with closing(open_journal(folder, store)) as journal:
        runs = tuple(runs_of(journal, session, emergencies()))
    write_page(runs, folder, out)
    click.echo(f"The page is {out}. It holds all that was said: keep it as you keep the record.")
