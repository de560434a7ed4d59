"""`handsfree replay`: a timed script on a simulated clock."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from handsfree.cli.command import Command
from handsfree.cli.practice import TERMS, held_under, practice_options
from handsfree.cli.session_options import sessions_option, store_option
from handsfree.errors import WrongUse
from handsfree.say.wording_machine import kept_as
from handsfree.words import worded

_PATH = click.Path(path_type=Path)
_SPAN = re.compile(r"(\d{2,4}):([0-5]\d):([0-5]\d)", re.ASCII)


_YEARS = range(1900, 3000)
"""When a session can begin, so that clocks may be set by centuries before the calendar ends."""


def _moment(ctx: click.Context, option: click.Parameter, value: str) -> datetime:
    """An RFC 3339 time with its zone."""
    try:
        at = datetime.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(
            worded("{value} is not a time, as 2031-05-04T08:00:00Z.", value=value), ctx, option
        ) from None
    if at.tzinfo is None:
        raise click.BadParameter(
            worded("{value} has no zone: end it with Z or +02:00.", value=value), ctx, option
        )
    if at.year not in _YEARS:
        raise click.BadParameter(
            worded(
                "{value} is not in the years {first} to {last}.",
                value=value,
                first=_YEARS[0],
                last=_YEARS[-1],
            ),
            ctx,
            option,
        )
    return at


def _span(ctx: click.Context, option: click.Parameter, value: str) -> int:
    """Hours, minutes and seconds, as seconds."""
    found = _SPAN.fullmatch(value)
    if found is None:
        raise click.BadParameter(
            worded("{value} is not a span of time, as 06:00:00.", value=value), ctx, option
        )
    hours, minutes, seconds = map(int, found.groups())
    return (hours * 60 + minutes) * 60 + seconds


@click.command(
    cls=Command,
    epilog=(
        "handsfree replay shift.vtt --checklist peripheral_iv --start 2031-05-04T08:00:00Z "
        "--sessions simulated --out said.vtt --until 06:00:00"
    ),
)
@click.argument("script", type=_PATH)
@click.option(
    "--mode",
    type=click.Choice(["guide", "practice", "drill"]),
    default="guide",
    help=worded("What is run."),
    show_default=True,
)
@click.option(
    "--checklist", default="peripheral_iv", help=worded("A built-in name, or a TOML file of your own.")
)
@click.option(
    "--start", callback=_moment, required=True, metavar="TIME", help=worded("When the session begins.")
)
@click.option(
    "--until",
    "until_s",
    callback=_span,
    required=True,
    metavar="HH:MM:SS",
    help=worded("When to stop, from the start on."),
)
@click.option(
    "--out", type=_PATH, required=True, metavar="OUT.vtt", help=worded("Everything that was said, as WebVTT.")
)
@sessions_option
@click.option(
    "--profile", default="common", metavar="NAME|FILE", help=worded("Local policy."), show_default=True
)
@store_option
@practice_options
def replay(script: Path, out: Path, sessions: Path | None, store: str, **run: Any) -> None:
    """Run a timed script on a simulated clock.

    SCRIPT is WebVTT: the text of each cue is what the user says at its start. A cue in braces steers:
    {"clock": "jump", "s": 3600}, {"sleep": 3600}, {"cut": "power"}, {"silence": true}.
    """
    from handsfree.replay import Simulation, script_from
    from handsfree.replay import replay as simulated
    from handsfree.rooms import Choices
    from handsfree.shelf import checklist_from, policy_from
    from handsfree.webvtt import written_webvtt
    from handsfree.whole_file import whole
    from handsfree.wiring import sessions_folder

    if not out.parent.is_dir():
        raise WrongUse(
            worded("There is no folder {folder}.", folder=out.parent), worded("Make it, then start again.")
        )
    checklist, kind = checklist_from(run["checklist"]), run["mode"]
    simulation = Simulation(script_from(script), checklist, run["start"], run["until_s"])
    policy = policy_from(run["profile"])
    choices = Choices(
        sessions or sessions_folder(),
        "typed",
        "printed",
        store=store,
        intervals=policy.intervals,
        limits=policy.limits,
        kind=kind,
    )
    if kind == "practice":
        choices = replace(choices, terms=held_under(checklist, **{name: run[name] for name in TERMS}))
    session, cues = simulated(simulation, choices)
    with whole(out) as unfinished:
        unfinished.write_text(written_webvtt(cues), "utf-8", newline="\n")
    click.echo(kept_as(session, choices.sessions), err=True)
