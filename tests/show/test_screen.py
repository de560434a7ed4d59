"""The terminal view: in any width, without colour, in a pipe, and in a real terminal."""

from __future__ import annotations

import io
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from rich.console import Console

from handsfree.glance import Glance, Hearing, Running, Status
from handsfree.show.screen import Screen, drawn
from tests.house.documents import ROOT

NOW = datetime(2031, 5, 4, 8, 0, tzinfo=UTC)

SEEN = Glance(
    title="Peripheral I V",
    place="Site · 20 of 55 done",
    do="Clean with friction for thirty seconds.",
    say=("scrubbing", "cleaning the site"),
    alert="Site check. Look, feel and ask.",
    rate=("42 drops a minute", "one drop every 1.4 s"),
    clocks=(
        Running("Tourniquet on", NOW - timedelta(seconds=75)),
        Running("Site check", NOW + timedelta(hours=1, seconds=5), due=True),
        Running("Bag empty", NOW - timedelta(seconds=61), due=True),
    ),
)


PARTS = [
    *(SEEN.alert, SEEN.do, *SEEN.rate, "Say: “scrubbing” or “cleaning the site”", "Heard: tourniquet on"),
    *("1:15 Tourniquet on", "1:00:05 Site check", "+1:01 Bag empty"),
]


def written(width: int, **settings: object) -> str:
    console = Console(file=io.StringIO(), width=width, **settings)  # type: ignore[arg-type]
    console.print(drawn(SEEN, Status(heard="tourniquet on"), NOW))
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


@pytest.mark.parametrize("width", [120, 80, 40])
def test_everything_is_there_in_any_width(width: int) -> None:
    """No line is wider than the terminal, and no word is lost."""
    text = written(width)
    words = " ".join(text.split())

    assert [] == [line for line in text.splitlines() if len(line) > width]
    for part in (
        SEEN.alert,
        SEEN.do,
        *SEEN.rate,
        "1:15 Tourniquet on",
        "1:00:05 Site check",
        "+1:01 Bag empty",
    ):
        assert part in words
    assert "Say: “scrubbing” or “cleaning the site”" in words
    assert "Heard: tourniquet on" in words


def test_no_colour_where_none_is_wanted(monkeypatch: pytest.MonkeyPatch) -> None:
    """NO_COLOR takes every colour out (no-color.org); words and signs tell the same."""
    monkeypatch.setenv("NO_COLOR", "1")
    text = written(80, force_terminal=True)

    assert "● listening" in text
    assert [] == [code for code in ("[31", "[32", "[33", ";31", ";32", ";33") if code in text]


@pytest.mark.parametrize(
    ("ear", "sign"),
    [(Hearing.OPEN, "● listening"), (Hearing.DEAF, "■ speaking"), (Hearing.PAUSED, "○ not listening")],
)
def test_ear_is_told_by_a_sign_and_a_word(ear: Hearing, sign: str) -> None:
    """Not by colour alone (WCAG 2.2, 1.4.1)."""
    console = Console(file=io.StringIO(), width=80)
    console.print(drawn(SEEN, Status(ear), NOW))
    assert isinstance(console.file, io.StringIO)

    assert sign in console.file.getvalue()


def test_plain_lines_in_a_pipe() -> None:
    """What changed, line by line; what did not is not said again."""
    console = Console(file=io.StringIO(), width=40)
    with Screen(console, lambda: NOW) as screen:
        screen.show(Glance(do="Gloves on.", say=("gloved",)), Status())
        screen.show(Glance(do="Gloves on.", say=("gloved",)), Status(heard="[bold]", understood=False))
        screen.show(Glance(do="Is it dry?"), Status(heard="gloved"))
    assert isinstance(console.file, io.StringIO)

    assert [
        "Gloves on.",
        "Say: “gloved”",
        "Not understood: [bold]",
        "Is it dry?",
        "Heard: gloved",
    ] == console.file.getvalue().splitlines()


@pytest.fixture
def tmux(tmp_path: Path) -> Iterator[list[str]]:
    """A terminal server of the test's own."""
    if shutil.which("tmux") is None:
        if os.environ.get("CI"):
            pytest.fail("on CI tmux must be there: apt install tmux")
        pytest.skip("tmux is not installed: apt install tmux.")
    command = ["tmux", "-S", str(tmp_path / "tmux"), "-f", "/dev/null"]
    yield command
    subprocess.run([*command, "kill-server"], check=False, capture_output=True)


@pytest.mark.parametrize(("width", "height"), [(80, 24), (40, 20)])
def test_in_a_real_terminal(tmux: list[str], tmp_path: Path, width: int, height: int) -> None:
    """A session in tmux: the step, what answers it, what was heard, and the terminal as it was afterwards."""
    guide = [sys.executable, "-m", "handsfree", "guide", "--ear", "typed", "--screen", "--voice", "spoken"]
    files = ["--speak-to", str(tmp_path / "said.wav"), "--sessions", str(tmp_path / "sessions")]
    shell = f"unset COLUMNS LINES; {shlex.join([*guide, *files])}; echo left; exec cat"
    size = ["-x", str(width), "-y", str(height)]
    subprocess.run([*tmux, "new-session", "-d", *size, "bash", "-c", shell], check=True, cwd=ROOT)
    _waited(tmux, "Check two identifiers")
    subprocess.run([*tmux, "send-keys", "two identifiers checked", "Enter"], check=True)
    text = _waited(tmux, "Which fluid is ordered?")

    assert "● listening" in text
    _waited(tmux, "Heard: two identifiers checked")
    assert [] == [line for line in text.splitlines() if len(line) > width]
    subprocess.run([*tmux, "send-keys", "C-d"], check=True)
    assert "listening" not in _waited(tmux, "left")


def _waited(tmux: list[str], words: str) -> str:
    """What the terminal shows once it holds these words, line ends aside; pytest's timeout ends the wait."""
    while True:
        done = subprocess.run([*tmux, "capture-pane", "-p"], check=True, capture_output=True, text=True)
        if words in " ".join(done.stdout.split()):
            return done.stdout
