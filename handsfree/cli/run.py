"""Runs a command and turns whatever goes wrong into one line and an exit status."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

import click
from click.exceptions import Exit
from click.shell_completion import shell_complete

from handsfree.cli.group import handsfree
from handsfree.cli.process import Stopped
from handsfree.errors import HandsfreeError
from handsfree.words import worded

USAGE, BROKEN = 2, 3

ASKED_BY_SHELL = "_HANDSFREE_COMPLETE"
"""The variable by which a shell asks how a command line can go on, as click's completion scripts set it."""

INTERRUPTED, READER_GONE = 130, 141
"""What a shell reports of a program that SIGINT or SIGPIPE ended: 128 and the signal's number (POSIX has
"greater than 128")."""

_STOPPED = worded(
    "Stopped before the end. What a session had until now is kept: handsfree resume goes on with it."
)


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command line (None: the process's own) and return its exit status.

    A command returns its status, or nothing where it is done.
    """
    try:
        status = _run(sys.argv[1:] if arguments is None else arguments)
        sys.stdout.flush()
    except Exit as left:
        return left.exit_code
    except Stopped as asked:
        return _told(_STOPPED, 128 + asked.number)
    except (KeyboardInterrupt, click.Abort):
        return _told(_STOPPED, INTERRUPTED)
    except BrokenPipeError:
        _forget_output()
        return READER_GONE
    except HandsfreeError as wrong:
        return _told(str(wrong), wrong.exit_status)
    except click.ClickException as wrong:
        return _told(_usage(wrong), USAGE)
    except OSError as wrong:
        refused = worded("The system refuses: {why}.", why=wrong)
        step = worded("Make room, check who may read and write there, or name another place.")
        return _told(f"{refused} {step}", BROKEN)
    except RecursionError:
        return _told(worded("What was given is nested too deep to be read. Take its brackets apart."), USAGE)
    except Exception as bug:
        fault = worded("handsfree has a fault of its own ({fault}).", fault=f"{type(bug).__name__}: {bug}")
        return _told(f"{fault} {worded('Please report it, with the command that you gave.')}", BROKEN)
    return status


def _run(arguments: Sequence[str]) -> int:
    if ASKED_BY_SHELL in os.environ:
        return shell_complete(handsfree, {}, "handsfree", ASKED_BY_SHELL, os.environ[ASKED_BY_SHELL])
    with handsfree.make_context("handsfree", list(arguments)) as context:
        status = handsfree.invoke(context)
    return status if isinstance(status, int) else 0


def _usage(wrong: click.ClickException) -> str:
    context = wrong.ctx if isinstance(wrong, click.UsageError) else None
    command = context.command_path if context else "handsfree"
    return f"{wrong.format_message()} {worded('See: {command} --help', command=command)}"


def _told(line: str, status: int) -> int:
    click.echo(" ".join(line.split()), err=True)
    return status


def _forget_output() -> None:
    """Send what is still buffered nowhere: the interpreter would complain when it flushes."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
