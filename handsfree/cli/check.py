"""`handsfree check`: what works on this machine, and what to do about the rest."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from handsfree.cli.command import Command
from handsfree.errors import NotSo
from handsfree.say.wording_keys import called
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.cli.parts import Finding


@click.command(cls=Command, epilog="handsfree check")
@click.option("--json", "as_json", is_flag=True, help=worded("One JSON object a line for each part."))
@click.option("--sounds", is_flag=True, help=worded("Let each short sound be heard, after its name."))
@click.option(
    "--speak-to", type=click.Path(path_type=Path), metavar="FILE", help=worded("Sounds into a file.")
)
def check(as_json: bool, sounds: bool, speak_to: Path | None) -> None:
    """Tell what works on this machine, a line for each part, and what to do about the rest.

    In a terminal it asks for one sentence, with a level meter, and tells how loud you and the room are.
    Exit status 0 when a session can be run, at least with typed words or a recording; else 1.
    """
    if sounds:
        _let_hear(speak_to)
        return
    from handsfree.cli.parts import can_run, findings

    found: list[Finding] = []
    for finding in findings(asks=not as_json and sys.stdin.isatty() and sys.stderr.isatty()):
        found.append(finding)
        click.echo(json.dumps(asdict(finding)) if as_json else _in_words(finding))
    if not can_run(found):
        step = worded("Do what stands beside the parts that do not work.")
        raise NotSo(worded("No session can be run on this machine."), step)


def _let_hear(speak_to: Path | None) -> None:
    from handsfree.signals import Chime
    from handsfree.wiring import open_voice

    with open_voice("spoken", speak_to) as voice:
        for chime in Chime:
            voice.say(f"{called(chime.value)}.")
            voice.chime(chime)


def _in_words(finding: Finding) -> str:
    works = ", ".join(filter(None, (worded("works"), finding.tells)))
    return f"{called(finding.part)}: {finding.wrong or works}"
