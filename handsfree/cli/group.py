"""The `handsfree` command: its subcommands by table, each imported only when it is called."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from importlib import import_module

import click

from handsfree import __version__
from handsfree.cli.command import Group
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class _Entry:
    """Where a command stands: a name in a module of this package. does: one line for the list."""

    module: str
    does: str


COMMANDS = {
    "demo": _Entry("guide", worded("Run the main job on bundled recordings: no microphone, no download.")),
    "guide": _Entry("guide", worded("Walk through a checklist by voice.")),
    "practice": _Entry("practice", worded("Talk a checklist through, and hear what was missed.")),
    "drill": _Entry("drill", worded("Record a drill with timed marks.")),
    "resume": _Entry("guide", worded("Go on with the session that was cut off.")),
    "replay": _Entry("replay", worded("Run a timed script on a simulated clock.")),
    "hear": _Entry("hear", worded("Recognise recordings with a grammar.")),
    "rate": _Entry("rate", worded("Work out drip rate, time and volume, from the keyboard.")),
    "dose": _Entry("dose", worded("Turn doses into rates and back, and find the volume to draw up.")),
    "fluids": _Entry("fluids", worded("Work out maintenance, deficit, burns and bolus by weight.")),
    "new-checklist": _Entry("new_checklist", worded("Write a checklist to start from.")),
    "review": _Entry("review", worded("Tell what is unclear in a checklist, and rehearse it.")),
    "debrief": _Entry("debrief", worded("Make the page to go through sessions with afterwards.")),
    "export": _Entry(
        "export", worded("Write a session as plain files: record, events, captions, marks, sound.")
    ),
    "sessions": _Entry("sessions", worded("List what was kept, or erase it.")),
    "model": _Entry("model", worded("Show, fetch and verify the speech model.")),
    "check": _Entry("check", worded("Tell what works on this machine, and what to do about the rest.")),
}
"""Every command, in the order in which they are listed."""


class _Lazy(Group):
    """Group that knows its commands by name and loads the one that is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        entry = COMMANDS.get(cmd_name)
        if entry is None:
            return None
        command = getattr(import_module(f"handsfree.cli.{entry.module}"), cmd_name.replace("-", "_"))
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click, with the nearest name of what is no command."""
        near = get_close_matches(args[0], COMMANDS, n=1) if args[0] not in COMMANDS else []
        if near:
            wrong = worded("No such command '{typed}'. (Did you mean '{near}'?)", typed=args[0], near=near[0])
            ctx.fail(wrong)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section(worded("Commands")):
            formatter.write_dl([(name, entry.does) for name, entry in COMMANDS.items()])


@click.group(
    cls=_Lazy,
    no_args_is_help=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="handsfree demo",
)
@click.version_option(__version__, message="%(prog)s %(version)s")
def handsfree() -> None:
    """An offline, voice-driven checklist and timer assistant for gloved hands.

    It reminds, counts and records; the order and local protocol decide.
    """
