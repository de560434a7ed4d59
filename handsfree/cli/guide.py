"""`handsfree guide`, `resume` and `demo`: a session by voice."""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import click

_EARS = click.Choice(["vosk", "sphinx", "typed"])
_VOICES = click.Choice(["spoken", "printed"])
_PATH = click.Path(path_type=Path)

_COMMON: tuple[Callable[[Any], Any], ...] = (
    click.option("--ear", type=_EARS, help="Default: the best one here."),
    click.option("--voice", type=_VOICES, help="Default: spoken, printed if typed."),
    click.option("--from", "recording", type=_PATH, metavar="FILE", help="A recording, not the microphone."),
    click.option("--speak-to", type=_PATH, metavar="FILE", help="Speech into a sound file."),
    click.option("--sessions", type=_PATH, metavar="DIR", help="Where sessions are kept."),
    click.option("--store", default="", metavar="URL", help="Another database (SQLAlchemy URL)."),
    click.option("--call-word", default="", metavar="WORD", help="Every command begins with it."),
    click.option(
        "--profile",
        default="common",
        metavar="NAME|FILE",
        help="Local policy: when it reminds of what.",
        show_default=True,
    ),
    click.option(
        "--sign-after",
        "signs_after_s",
        type=click.IntRange(0),
        default=90,
        metavar="SECONDS",
        help="Silence after which it says that it listens; 0: never.",
        show_default=True,
    ),
    click.option("--headset", is_flag=True, help="The microphone does not hear the loudspeaker."),
)


def _common(command: Callable[..., Any]) -> Callable[..., Any]:
    for option in reversed(_COMMON):
        command = option(command)
    return command


@click.command(epilog="Example: handsfree guide peripheral_iv --ear vosk")
@click.argument("checklist", default="peripheral_iv")
@_common
def guide(checklist: str, **options: Any) -> None:
    """Walk through a checklist by voice. CHECKLIST is a built-in name or a TOML file of your own."""
    from handsfree.sessions import checklist_from, rooms_for, run_new

    read = checklist_from(checklist)
    choices = _choices(**options)
    with rooms_for(choices) as rooms:
        _, record = run_new(read, choices, rooms)
    click.echo(f"Kept as {record.session} in {choices.sessions}.", err=True)


@click.command(epilog="Example: handsfree resume --ear vosk")
@click.argument("session", default="last")
@_common
def resume(session: str, **options: Any) -> None:
    """Go on with the session that was cut off. SESSION is an id; without one, the last."""
    from handsfree.sessions import rooms_for, run_cut_off

    choices = _choices(**options)
    with rooms_for(choices) as rooms:
        _, record = run_cut_off("" if session == "last" else session, choices, rooms)
    click.echo(f"Kept as {record.session} in {choices.sessions}.", err=True)


@click.command(epilog="Example: handsfree demo --ear sphinx")
@click.option("--ear", type=click.Choice(["vosk", "sphinx"]), help="Default: the best one here.")
@click.option(
    "--scene",
    type=click.Choice(["aid_station", "lock_only"]),
    default="aid_station",
    show_default=True,
    help="Which recorded person answers.",
)
@click.option("--sessions", type=click.Path(path_type=Path), metavar="DIR", help="Where sessions are kept.")
def demo(ear: str | None, scene: str, sessions: Path | None) -> None:
    """Run the main job on bundled recordings: no microphone, no loudspeaker, no download."""
    from handsfree.export import record_of
    from handsfree.record import load
    from handsfree.sessions import emergencies, run_demo
    from handsfree.show.record_files import record_text
    from handsfree.wiring import open_journal

    choices = _choices(ear=ear, voice="printed", sessions=sessions)
    _, record = run_demo(scene, choices, sys.stdout)
    with closing(open_journal(choices.sessions, "")) as journal:
        kept = load(journal, record.session, emergencies())
    click.echo()
    for line in record_text(*record_of(kept)):
        click.echo(line)
    click.echo(f"\nKept as {record.session} in {choices.sessions}.")


def _choices(
    *, ear: str | None, voice: str | None, sessions: Path | None, profile: str = "common", **others: Any
) -> Any:
    from handsfree.sessions import Choices, policy_from
    from handsfree.wiring import best_ear, sessions_folder

    ear = ear or best_ear()
    voice = voice or ("printed" if ear == "typed" else "spoken")
    folder, intervals = sessions or sessions_folder(), policy_from(profile)
    return Choices(sessions=folder, ear=ear, voice=voice, intervals=intervals, **others)
