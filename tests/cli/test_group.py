"""The command line as a whole: help, what is loaded, and one line for whatever goes wrong."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from handsfree.cli.group import COMMANDS
from handsfree.cli.group import handsfree as group
from handsfree.cli.process import Stopped
from handsfree.errors import HandsfreeError, NotSo
from tests.cli.conftest import Command, spoken
from tests.house.documents import ROOT, fresh, shell, understood

DEPENDENCIES = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]

HEAVY = sorted({re.split(r"[>=<]", one)[0].replace("-", "_") for one in DEPENDENCIES} - {"click"})
"""All that the program stands on, by the names of its modules, but for what reads the command line."""


def test_help_loads_nothing_heavy() -> None:
    """`handsfree --help` is there at once: no back-end is imported for it."""
    code = (
        "import sys; from handsfree.cli import run; status = run(['--help']);"
        f"print(status, sorted(set({HEAVY!r}) & set(sys.modules)), file=sys.stderr)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stderr == "0 []\n"
    assert [name for name in COMMANDS if f"\n  {name} " not in ran.stdout] == []


def test_an_ear_is_loaded_before_anything_heavy() -> None:
    """A session's ear takes longest: until it begins to be loaded no library is imported but a light one."""
    code = (
        "import sys; from handsfree import rooms; from handsfree.cli import run;"
        f"rooms.await_ear = lambda name: sys.exit(str(sorted(set({HEAVY!r}) & set(sys.modules))));"
        "run(['guide', '--ear', 'vosk', '--voice', 'printed'])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (ran.stdout, ran.stderr) == ("", "['platformdirs']\n")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_helps_with_an_example(handsfree: Command, name: str) -> None:
    """`--help` ends with an example that can be typed."""
    ran = handsfree(name, "--help")
    assert (ran.status, ran.err) == (0, "")
    assert f"Example: handsfree {name}" in ran.out


def _all(command: click.Command = group, *path: str) -> Iterator[tuple[str, ...]]:
    """The words of every command and of those within it."""
    if path:
        yield path
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            within = command.get_command(context, name)
            assert within is not None
            yield from _all(within, *path, name)


NOT_RUN = {
    "handsfree demo --ear sphinx": "takes a minute and more: .ci/run does",
    "handsfree guide peripheral_iv --ear vosk": "needs a microphone",
    "handsfree practice peripheral_iv --trainee robin --seed 7": "needs a microphone",
    "handsfree drill peripheral_iv --trainees Anna,Ben": "needs a microphone",
    "handsfree resume --ear vosk": "needs a microphone",
    "handsfree model get model.zip": "needs 41 MB: tests/cli/test_model.py",
}

SHIFT = "WEBVTT\n\n00:00:05.000 --> 00:00:06.000\ntwo identifiers\n"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str]]:
    """A folder with all that examples name: a script, a checklist, recordings, a session that was kept."""
    folder = tmp_path_factory.mktemp("desk")
    environment = fresh(folder)
    (folder / "shift.vtt").write_text(SHIFT)
    for name in ("next.wav", "where am i.ogg"):
        spoken(folder / name, name.partition(".")[0])
    for line in (
        "handsfree new-checklist my_list.toml",
        "handsfree replay shift.vtt --start 2031-05-04T08:00:00Z --out first.vtt --until 00:01:00",
    ):
        shell(line, folder, environment)
    return folder, environment


@pytest.mark.parametrize("path", [*_all()], ids=" ".join)
def test_every_example_runs(
    desk: tuple[Path, dict[str, str]], handsfree: Command, path: tuple[str, ...]
) -> None:
    """What `--help` shows can be typed as it stands; what cannot be run here is at least understood."""
    told = " ".join(handsfree(*path, "--help").out.split())
    example = told.partition("Example: ")[2]
    if example in NOT_RUN:
        assert understood(example)
        return
    done = shell(example, *desk)
    assert (example, 0) == (example, done.returncode), done.stdout


@pytest.mark.parametrize("name", COMMANDS)
def test_every_table_entry_is_the_command_of_that_name(name: str) -> None:
    """The table names what is there."""
    command = group.get_command(click.Context(group), name)
    assert command is not None
    assert name == command.name


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("gui", {"guide"}),
        ("guide --voi", {"--voice"}),
        ("guide --ear s", {"sphinx"}),
        ("guide peri", {"peripheral_iv", "peri"}),
        ("review fl", {"flush_lock", "fl"}),
        ("fluids bo", {"bolus"}),
    ],
)
def test_the_shell_completes(
    handsfree: Command, monkeypatch: pytest.MonkeyPatch, typed: str, offered: set[str]
) -> None:
    """Commands, options, values, checklists and files; docs/first-session.md tells how the shell asks so."""
    words = f"handsfree {typed}"
    monkeypatch.setenv("COMP_WORDS", words)
    monkeypatch.setenv("COMP_CWORD", str(len(words.split()) - 1))
    monkeypatch.setenv("_HANDSFREE_COMPLETE", "bash_complete")
    assert offered == {line.partition(",")[2] for line in handsfree().lines}


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_bash_is_told_how_to_ask(desk: tuple[Path, dict[str, str]]) -> None:
    """The line that the page gives, as a start-up file would have it."""
    page = (ROOT / "docs" / "first-session.md").read_text("utf-8")
    line = next(one for one in page.splitlines() if one.startswith("eval "))
    assert "_handsfree_completion" in shell(f"{line}; complete -p handsfree", *desk).stdout


BAD_USE = [
    ((), "Missing command. See: handsfree --help"),
    (("dance",), "No such command 'dance'. See: handsfree --help"),
    (("gide",), "No such command 'gide'. (Did you mean 'guide'?) See: handsfree --help"),
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
        (KeyboardInterrupt(), 130, "Stopped before the end."),
        (Stopped(15), 143, "Stopped before the end."),
        (RecursionError(), 2, "What was given is nested too deep to be read."),
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
    assert len(ran.complaints) == 1


def test_a_reader_that_goes_away_is_no_failure_to_tell(tmp_path: Path) -> None:
    """As with `handsfree rate … | true`: quiet, with the status of SIGPIPE."""
    code = (
        "import os, sys; from handsfree.cli import run;"
        "read, write = os.pipe(); os.dup2(write, 1); os.close(write); os.close(read);"
        "sys.exit(run(['rate', '--rate', '125 mL/h', '--drop-factor', '15 gtt/mL']))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (141, "")
