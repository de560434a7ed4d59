"""`handsfree debrief`: the page to go through sessions with afterwards."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from handsfree.cli.command import Command
from handsfree.cli.session_options import sessions_option, store_option
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.record import Kept
    from handsfree.show.debrief.run import Run

_PATH = click.Path(path_type=Path)


@click.command(cls=Command, epilog="handsfree debrief last --out page.html")
@click.argument("session", nargs=-1, required=True)
@click.option(
    "--out",
    type=_PATH,
    metavar="PAGE.html",
    help=worded("Default: debrief.html, here."),
    default="debrief.html",
)
@click.option("--rehear", is_flag=True, help=worded("Hear the kept sound again, and show that."))
@click.option(
    "--ear", type=click.Choice(["vosk", "sphinx"]), help=worded("To hear again with. Default: the best here.")
)
@click.option(
    "--grammar", type=_PATH, metavar="FILE.jsgf", help=worded("What to hear. Default: all of the session.")
)
@sessions_option
@store_option
def debrief(session: tuple[str, ...], out: Path, sessions: Path | None, store: str, **again: Any) -> None:
    """Make the debrief page of SESSION, or of several side by side.

    SESSION is an id, or "last". The page is one file that holds the sound too, and needs no network.
    """
    from handsfree.cli.progress import progress_bar
    from handsfree.debrief import earlier_runs, write_page
    from handsfree.record import load, named
    from handsfree.shelf import emergencies
    from handsfree.wiring import open_journal, sessions_folder

    folder = sessions or sessions_folder()
    with closing(open_journal(folder, store)) as journal:
        kept = [load(journal, named(journal, name), emergencies()) for name in session]
        runs = [run for one in kept for run in _runs(one, folder, **again)]
        earlier = tuple(earlier_runs(runs, journal, emergencies()))
    with progress_bar(worded("Making the page")):
        write_page(runs, folder, out, earlier)
    click.echo(
        worded("The page is {out}. It holds all that was said: keep it as you keep the record.", out=out)
    )


def _runs(kept: Kept, folder: Path, *, rehear: bool, ear: str | None, grammar: Path | None) -> Iterable[Run]:
    if not rehear:
        if ear or grammar:
            raise click.UsageError(worded("--ear and --grammar go with --rehear."))
        from handsfree.debrief import runs_from

        return runs_from(kept)
    from handsfree.cli.progress import progress_bar
    from handsfree.cli.rehearing import Rehearing

    with progress_bar(worded("Hearing it again")) as progress:
        return Rehearing(ear or "", grammar).runs(kept, folder, progress)
