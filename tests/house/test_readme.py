"""README.md keeps its word: its commands run, its sentences are heard, its links lead somewhere."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from handsfree.care.listening import listen
from handsfree.cli.group import COMMANDS
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import read_library
from handsfree.wiring import read_shipped
from tests.dialogues import lexicon
from tests.house.documents import ROOT, blocks, understood
from tests.phrases.test_shipped import RUNNING

SET_UP = ["pip install . && handsfree demo", "pip install '.[test]' && pytest"]
"""Run by .ci/run, where there is a virtual environment of its own."""

NEED_A_MACHINE = {"handsfree guide", "handsfree resume", "handsfree model get"}
"""Not run here: they need a microphone, or fetch 41 MB."""

COMMAND_LINES = [line for block in blocks("README.md", "sh") for line in block.splitlines()]

TEXT = (ROOT / "README.md").read_text("utf-8")


def ran(line: str, data: Path) -> subprocess.CompletedProcess[str]:
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    return subprocess.run(
        ["bash", "-c", line],
        cwd=ROOT,
        env={**os.environ, "PATH": path, "XDG_DATA_HOME": str(data)},
        text=True,
        capture_output=True,
        check=False,
    )


def test_set_up_stands_first_and_is_what_ci_does() -> None:
    """The first two commands are the whole set-up, and `.ci/run` does the same parts."""
    ci = (ROOT / ".ci" / "run").read_text("utf-8")
    parts = ("pip install -q '.[test]'", "handsfree demo", "\npytest")

    assert SET_UP == COMMAND_LINES[:2]
    assert [part for part in parts if part not in ci] == []


@pytest.mark.parametrize("line", [line for line in COMMAND_LINES[2:] if line not in NEED_A_MACHINE])
def test_command_runs(line: str, tmp_path: Path) -> None:
    """What README shows can be typed as it stands, in a checkout."""
    done = ran(line, tmp_path)

    assert (0, "") == (done.returncode, "" if done.returncode == 0 else done.stderr)


@pytest.mark.parametrize("line", sorted(NEED_A_MACHINE))
def test_command_is_understood(line: str) -> None:
    """What is not run here is at least a command, with arguments that it takes."""
    assert understood(line)
    assert line in COMMAND_LINES


def test_table_of_commands_is_whole() -> None:
    """The table names every command, and no other, in the order of the program's own list."""
    table = TEXT.split("## Commands")[1].split("```")[0]

    assert list(COMMANDS) == re.findall(r"^\| `handsfree ([\w-]+)", table, re.MULTILINE)


def _always() -> Grammar:
    return compile_grammar(read_library(["always", "questions"], read_shipped))


def _said() -> list[str]:
    table = TEXT.split("| to | say for example |")[1].split("\n\n")[0]
    return re.findall(r"`([^`]+)`", table)


@pytest.mark.parametrize("words", _said())
def test_sentence_is_heard(words: str) -> None:
    """Every sentence that README offers is a command of all sessions, or of one whose line runs."""
    running = lexicon().grammar(listen(RUNNING))
    said = tuple(words.split())

    assert [*_always().match(said), *running.match(said)] != []


@pytest.mark.parametrize("target", sorted(set(re.findall(r"\]\(([^)#]+)\)", TEXT))))
def test_link_leads_somewhere(target: str) -> None:
    """What README links to is in the repository."""
    assert (ROOT / target).exists()


def _unwrapped(text: str) -> str:
    """A dialogue without times and line ends: what is said is the same on a slower voice."""
    return " ".join(re.sub(r"^\d\d:\d\d ", "", text, flags=re.MULTILINE).split())


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
def test_dialogue_is_what_the_demo_says(tmp_path: Path) -> None:
    """The pieces of dialogue in README are pieces of the demo's own."""
    told = _unwrapped(ran("handsfree demo --ear vosk", tmp_path).stdout)

    assert [piece for piece in blocks("README.md", "text") if _unwrapped(piece) not in told] == []


def test_is_short() -> None:
    """README is read in one go."""
    assert len(TEXT.splitlines()) <= 150
