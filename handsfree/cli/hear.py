"""`handsfree hear`: recognises recordings with a grammar."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from handsfree.cli.command import Command
from handsfree.cli.hear_lines import Said, Summary, as_line, as_object, summary_line, summary_object
from handsfree.errors import MissingPart, SoundError
from handsfree.words import worded

_EXAMPLE = 'handsfree hear --grammar grammars/always.jsgf --json next.wav "where am i.ogg"'


@click.command(cls=Command, epilog=_EXAMPLE)
@click.option(
    "--ear", type=click.Choice(["vosk", "sphinx"]), help=worded("Recogniser [default: vosk if there]")
)
@click.option(
    "--grammar",
    required=True,
    type=click.Path(path_type=Path),
    help=worded("What can be said, in JSpeech Grammar Format; imports come from the same folder."),
)
@click.option("--json", "as_json", is_flag=True, help=worded("One JSON object a line for each utterance."))
@click.option("--summary", is_flag=True, help=worded("A last line with seconds of sound and of computing."))
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
def hear(ear: str | None, grammar: Path, as_json: bool, summary: bool, files: tuple[Path, ...]) -> int:
    """Recognise recordings: WAV, FLAC or Ogg, any rate, one or two channels.

    A file without speech prints nothing. A file that cannot be read is named on standard error, and the
    others go on.
    """
    from handsfree.cli.hearing import Hearing

    hearing = Hearing.with_grammar(ear, grammar)
    broken = False
    for said in _all_said(hearing.said_in(file) for file in files):
        if isinstance(said, SoundError):
            broken = True
            click.echo(str(said), err=True)
        else:
            click.echo(json.dumps(as_object(said)) if as_json else as_line(said))
    if summary:
        _print_summary(hearing.summary(), as_json)
    return MissingPart.exit_status if broken else 0


def _all_said(files: Iterable[Iterator[Said]]) -> Iterator[Said | SoundError]:
    """What was said in each file in turn; the error in place of the rest of a file that is broken."""
    for said in files:
        try:
            yield from said
        except SoundError as broken:
            yield broken


def _print_summary(summary: Summary, as_json: bool) -> None:
    click.echo(json.dumps(summary_object(summary)) if as_json else summary_line(summary))
