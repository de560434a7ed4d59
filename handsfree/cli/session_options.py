"""What the commands that run a session have in common: their options, and what follows from them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.shell_completion import CompletionItem

from handsfree.cli.command import Command
from handsfree.errors import WrongUse
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.rooms import Choices

_EARS = click.Choice(["vosk", "sphinx", "typed"])
_VOICES = click.Choice(["spoken", "printed"])
_PATH = click.Path(path_type=Path)

sessions_option = click.option(
    "--sessions", type=_PATH, metavar="DIR", help=worded("Where sessions are kept.")
)
store_option = click.option(
    "--store", default="", metavar="URL", help=worded("Another database (SQLAlchemy URL).")
)

_COMMON: tuple[Callable[[Any], Any], ...] = (
    click.option("--ear", type=_EARS, help=worded("Default: the best one here.")),
    click.option("--voice", type=_VOICES, help=worded("Default: spoken, printed if typed.")),
    click.option(
        "--from", "recording", type=_PATH, metavar="FILE", help=worded("A recording, not the microphone.")
    ),
    click.option("--speak-to", type=_PATH, metavar="FILE", help=worded("Speech into a sound file.")),
    sessions_option,
    store_option,
    click.option("--call-word", default="", metavar="WORD", help=worded("Every command begins with it.")),
    click.option(
        "--profile",
        default="common",
        metavar="NAME|FILE",
        help=worded("Local policy: when it reminds of what."),
        show_default=True,
    ),
    click.option(
        "--sign-after",
        "signs_after_s",
        type=click.IntRange(0),
        default=90,
        metavar="SECONDS",
        help=worded("Silence after which it says that it listens; 0: never."),
        show_default=True,
    ),
    click.option("--board", is_flag=True, help=worded("Show the session in a browser of this machine.")),
    click.option(
        "--board-at",
        default="",
        metavar="ADDRESS:PORT",
        help=worded("Show it to other devices too, at this address of this machine."),
    ),
    click.option(
        "--screen", is_flag=True, help=worded("Show the session in the terminal, in its full size.")
    ),
    click.option("--headset/--no-headset", help=worded("The microphone does not hear the loudspeaker.")),
    click.option(
        "--speech-level",
        type=click.IntRange(-120, 0),
        metavar="DB",
        help=worded("How loud speech comes; handsfree check tells."),
    ),
)


class SessionCommand(Command):
    """A command with the options of every session: what was not given is as the user's settings have it."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take the settings for defaults. Raises WrongUse for what no option takes."""
        ctx.default_map = settings_of(ctx)
        return super().parse_args(ctx, args)


def complete_checklist(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """What a shell offers for a checklist: the names of those that are built in, and files."""
    from handsfree.shelf import checklist_names

    names = [CompletionItem(name) for name in checklist_names() if name.startswith(begun)]
    return [*names, CompletionItem(begun, type="file")]


def session_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options of every session."""
    for option in reversed(_COMMON):
        command = option(command)
    return command


def chosen(*, ear: str | None, voice: str | None, sessions: Path | None, **others: Any) -> Choices:
    """The choices that the options stand for. Raises WrongUse, PolicyError."""
    from handsfree.rooms import Choices
    from handsfree.shelf import policy_from
    from handsfree.views import THIS_MACHINE
    from handsfree.wiring import best_ear, sessions_folder

    ear = ear or best_ear()
    if ear == "typed" and others.get("recording"):
        raise WrongUse(
            worded("The typed ear hears no recording."), worded("Leave out --from, or name another --ear.")
        )
    voice = voice or ("printed" if ear == "typed" else "spoken")
    policy = policy_from(others.pop("profile", "common"))
    others |= {"intervals": policy.intervals, "limits": policy.limits}
    here = others.pop("board", False)
    others["board"] = others.pop("board_at", "") or (THIS_MACHINE if here else "")
    return Choices(sessions=sessions or sessions_folder(), ear=ear, voice=voice, **others)


def settings_of(ctx: click.Context) -> dict[str, Any]:
    """The settings by click's names of their options. Raises WrongUse, naming the file."""
    from handsfree.settings import read_settings, settings_file

    common = click.command(session_options(lambda: None)).params
    options = {max(one.opts, key=len).removeprefix("--").replace("-", "_"): one for one in common}
    defaults: dict[str, Any] = {}
    for key, value in read_settings().items():
        try:
            option = options[key]
            defaults[str(option.name)] = option.type_cast_value(ctx, value)
            continue
        except KeyError:
            why = worded("there is no option {key}.", key=key)
        except click.BadParameter as wrong:
            why = f"{key}: {wrong}"
        except (TypeError, AttributeError):  # click takes every value for a text
            why = worded("{key}: {value} is of no kind that it takes.", key=key, value=value)
        raise WrongUse(f"{settings_file()}: {why}", worded("See: {command} --help", command=ctx.command_path))
    return defaults
