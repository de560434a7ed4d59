"""`handsfree practice`: listens to a trainee who talks a checklist through, and marks the run."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from handsfree.cli.session_options import SessionCommand, chosen, complete_checklist, session_options
from handsfree.cli.set_up import after_first_run
from handsfree.say.wording_machine import kept_as
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.care.checklist import Checklist
    from handsfree.care.practice.terms import Terms

TERMS = ("level", "tell", "trainee", "seed")
"""Names of the options by which a practice run is held."""

_OPTIONS: tuple[Callable[[Any], Any], ...] = (
    click.option(
        "--level",
        type=click.Choice(["guided", "prompted", "silent"]),
        default="silent",
        help=worded("Each step is said; a cue comes where you wait; or cues on request alone."),
        show_default=True,
    ),
    click.option(
        "--tell",
        type=click.Choice(["at-once", "at-the-end"]),
        default="at-once",
        help=worded("When a critical error is told."),
        show_default=True,
    ),
    click.option("--trainee", default="", metavar="NAME", help=worded("Runs under one name are compared.")),
    click.option("--seed", type=int, metavar="N", help=worded("Faults to be met, drawn by this number.")),
)


def practice_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options by which a practice run is held."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


@click.command(cls=SessionCommand, epilog="handsfree practice peripheral_iv --trainee robin --seed 7")
@click.argument("checklist", default="peripheral_iv", shell_complete=complete_checklist)
@session_options
@practice_options
@click.option("--no-sound", is_flag=True, help=worded("Keep no sound, words alone."))
def practice(checklist: str, no_sound: bool, **options: Any) -> None:
    """Talk a checklist through, in any order; it listens, cues when asked, and tells what was missed.

    An instructor begins with the word: "instructor no flash" sets a fault, "instructor saw that",
    "instructor did not see that" and "instructor accepts that" decide.
    """
    from handsfree.rooms import rooms_for
    from handsfree.shelf import checklist_from

    read = checklist_from(checklist)
    terms = held_under(read, **{name: options.pop(name) for name in TERMS})
    choices = chosen(kind="practice", terms=terms, sound=not no_sound, **after_first_run(options))
    with rooms_for(choices) as rooms:
        from handsfree.sessions import run_new

        _, record = run_new(read, choices, rooms)
    click.echo(kept_as(record.session, choices.sessions), err=True)


def held_under(checklist: Checklist, level: str, tell: str, trainee: str, seed: int | None) -> Terms:
    """The terms that the options stand for."""
    from handsfree.care.practice.terms import Level, Telling, Terms, drawn

    most = checklist.assessment.faults if seed is not None else 0
    faults = drawn(checklist.faults, most, seed or 0)
    return Terms(trainee, Level(level), Telling(tell.replace("-", " ")), faults)
