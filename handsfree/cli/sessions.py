"""`handsfree sessions`: what was kept, and how to be rid of it."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import click


@click.command(epilog="Example: handsfree sessions --erase 20310504T080000-peripheral_iv")
@click.option(
    "--erase", metavar="SESSION", help='Erase this session ("last": the last) and its sound for good.'
)
@click.option("--sessions", type=click.Path(path_type=Path), metavar="DIR", help="Where sessions are kept.")
@click.option("--store", default="", metavar="URL", help="Another database (SQLAlchemy URL).")
def sessions(erase: str | None, sessions: Path | None, store: str) -> None:
    """List the sessions that were kept, oldest first, or erase one.

    Each with its beginning (UTC), its checklist, how it ended, and what of it is damaged.
    """
    from handsfree.keep.recorder import Clips
    from handsfree.record import glance, named
    from handsfree.wiring import open_journal, sessions_folder

    folder = sessions or sessions_folder()
    with closing(open_journal(folder, store)) as journal:
        if erase is None:
            for session in journal.sessions():
                kept = glance(journal, session)
                click.echo("  ".join((session, kept.began, kept.checklist, kept.ended)))
                for damage in kept.damage:
                    click.echo(f"  {damage}")
            return
        erase = named(journal, erase)
        journal.erase(erase)
    Clips(folder).erase(erase)
    click.echo(f"Erased {erase}.", err=True)
