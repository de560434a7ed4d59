"""`handsfree new-checklist` and `review`: from nothing to a checklist that was looked over and rehearsed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest


def ran(folder: Path, *arguments: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "handsfree", *arguments]
    return subprocess.run(command, cwd=folder, input=typed, text=True, capture_output=True, check=False)


def test_new_checklist_can_be_used_as_it_is(tmp_path: Path) -> None:
    """It has its file's name, nothing in it is unclear, and it can be rehearsed; nothing is kept."""
    written = ran(tmp_path, "new-checklist", "aid-tent.toml")
    typed = "oxygen is on\nexpires march twenty ninety\nrubbing\n"
    reviewed = ran(tmp_path, "review", "aid-tent.toml", "--ear", "sphinx", "--rehearse", typed=typed)
    said = reviewed.stdout.splitlines()

    assert (0, "", 0) == (written.returncode, written.stdout, reviewed.returncode)
    assert 'name = "aid_tent"' in (tmp_path / "aid-tent.toml").read_text("utf-8")
    assert "Opening the aid tent: 4 steps, 0 things to think about." in reviewed.stderr
    assert said[0].startswith("Opening the aid tent. A memory aid.")
    assert "Rubbing. Rub until it is dry, then gloves on." in said
    assert ["aid-tent.toml"] == [file.name for file in tmp_path.iterdir()]


def test_what_is_unclear_is_told_by_line(tmp_path: Path) -> None:
    """Sentences that sound alike, one way only of saying a thing, a word that talk nearby may hold."""
    (tmp_path / "mine.toml").write_text(
        'name = "mine"\n[[phase]]\nname = "all"\ntitle = "All"\n'
        '[[phase.step]]\nname = "tie"\ndo = "Tie."\nhow = "So."\nsay = "[the] bandage on"\n'
        '[[phase.step]]\nname = "untie"\ndo = "Untie."\nhow = "So."\nsay = "[the] bandage off"\n'
        '[[phase.step]]\nname = "flash"\ndo = "Flash?"\nhow = "So."\ncritical = true\nsay = "flash"\n',
        "utf-8",
    )
    done = ran(tmp_path, "review", "mine.toml", "--ear", "sphinx")

    assert [
        "mine.toml:5: step tie may be taken for untie: “bandage on” and “bandage off” are 1 sound apart.",
        "mine.toml:15: step flash can only be said as “flash”: add other ways.",
        "mine.toml:15: step flash is critical, and closed by one word, “flash”: talk nearby may hold it.",
    ] == done.stdout.splitlines()


REFUSED = [
    (("new-checklist", "there.toml"), 2, "is there already"),
    (("new-checklist", "7.toml"), 2, "is no name for a checklist"),
    (("new-checklist", "list.txt"), 2, "is no name for a checklist"),
    (("new-checklist", "nowhere/list.toml"), 3, "No such file"),
    (("review", "there.toml"), 2, "there.toml"),
    (("review", "nothing.toml"), 2, "There is no checklist nothing.toml."),
]


@pytest.mark.parametrize(("arguments", "status", "told"), REFUSED)
def test_is_refused(tmp_path: Path, arguments: tuple[str, ...], status: int, told: str) -> None:
    """In one line that says what to do; a file that is there is left as it is."""
    (tmp_path / "there.toml").write_text("nothing", "utf-8")
    done = ran(tmp_path, *arguments)

    assert (status, "", 1) == (done.returncode, done.stdout, len(done.stderr.splitlines()))
    assert told in done.stderr
    assert "nothing" == (tmp_path / "there.toml").read_text("utf-8")
