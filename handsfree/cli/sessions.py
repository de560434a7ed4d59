"""`handsfree sessions`: what was kept, and how to be rid of it."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import click

from handsfree.cli.command import Command
from handsfree.cli.session_options import sessions_option, store_option
from handsfree.errors import NotThere
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.keep.journal import SqlJournal


@click.command(cls=Command, epilog="handsfree sessions --erase 20310504T080000-peripheral_iv")
@click.option(
    "--erase", metavar="SESSION", help=worded('Erase this session ("last": the last) and its sound for good.')
)
@sessions_option
@store_option
def sessions(erase: str | None, sessions: Path | None, store: str) -> None:
    """List the sessions that were kept, oldest first, or erase one.

    Each with its beginning (UTC), its checklist, how it ended, and what of it is damaged.
    """
    from handsfree.record import outline
    from handsfree.say.wording_keys import called
    from handsfree.wiring import open_journal, sessions_folder

    folder = sessions or sessions_folder()
    with closing(open_journal(folder, store)) as journal:
        if erase is not None:
            click.echo(_erased(journal, folder, erase), err=True)
            return
        known = journal.sessions()
        for session in known:
            kept = outline(journal, session)
            click.echo("  ".join((session, kept.began, kept.checklist, called(kept.ended))))
            for damage in kept.damage:
                click.echo(f"  {damage}")
        if not known:
            nothing = worded("No session is kept in {folder}.", folder=folder)
            click.echo(worded("No session is kept in that database.") if store else nothing, err=True)


def _erased(journal: SqlJournal, folder: Path, session: str) -> str:
    """Erase a session and its sound, or the sound of one whose record is lost; returns what to say of it.

    The sound goes first: as long as there is a record, erasing can be tried again. Raises NotSo, StoreFailed.
    """
    from handsfree.keep.erasing import erase_sound
    from handsfree.record import named

    try:
        session = named(journal, session)
    except NotThere:
        if not erase_sound(folder, session):
            raise
        return worded("Erased {session}.", session=session)
    journal.claim(session)
    erase_sound(folder, session)
    remains = journal.erase(session)
    return f"{worded('Erased {session}.', session=session)} {remains}".rstrip()
