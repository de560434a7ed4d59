"""`handsfree model`: what there is of the speech model, and how to get it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from handsfree.cli.command import Group
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.hear.models import ModelStatus


@click.group(cls=Group, invoke_without_command=True, no_args_is_help=False, epilog="handsfree model")
@click.pass_context
def model(context: click.Context) -> None:
    """Show the speech model, or fetch it.

    Without the Vosk model the other recogniser, PocketSphinx, is used: it needs nothing, and hears less well.
    """
    if context.invoked_subcommand is None:
        from handsfree.hear.models import model_status

        click.echo(_in_words(model_status()))


@model.command(epilog="handsfree model get model.zip")
@click.argument("source", required=False)
@click.option("--sha256", default="", help=worded("Of the archive, where it is not one that is known."))
def get(source: str | None, sha256: str) -> None:
    """Put the English Vosk model in its place.

    SOURCE is a zip, an aar or a folder. Without it the model is downloaded, with Maven's client where there
    is one, else with Vosk's own downloader. What fails or does not verify leaves untouched what was there.
    """
    from handsfree.cli.progress import progress_bar
    from handsfree.hear.fetch import get_model

    with progress_bar(worded("Getting the speech model")) as progress:
        folder = get_model(source, progress, sha256)
    click.echo(worded("The speech model is in {folder}.", folder=folder))


def _in_words(status: ModelStatus) -> str:
    from handsfree.hear.models import GET_IT, MODEL_ID

    if not status.there:
        nowhere = worded("not on this machine; it would be in {folder}.", folder=status.folder)
        return f"{MODEL_ID}: {nowhere} {GET_IT}"
    if status.verified:
        return f"{MODEL_ID}: {worded('verified, in {folder}.', folder=status.folder)}"
    return (
        f"{MODEL_ID}: {worded('there, but not the model that is known, in {folder}.', folder=status.folder)}"
    )
