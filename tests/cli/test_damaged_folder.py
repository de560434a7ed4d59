"""A drill's folder with one file cut short or flipped, anywhere: a page, or one sentence."""

from __future__ import annotations

import random
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from handsfree.sessions import run_new
from handsfree.shelf import checklist_from
from tests.cli.conftest import Command
from tests.test_drill import BEGIN, DRILL, rooms

PAGE = 4096
"""Bytes that a disk loses together (SQLite's page, and that of most file systems)."""


@pytest.fixture(scope="module")
def drilled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a drill with marks, a note as a clip, and all its sound."""
    folder = tmp_path_factory.mktemp("drilled")
    run_new(checklist_from("site_check"), replace(DRILL, sessions=folder), rooms(BEGIN))
    return folder


def hurt(held: bytes, chance: random.Random) -> bytes:
    """What a disk, a bad cable or a pulled plug makes of a file."""
    at = chance.randrange(len(held))
    match chance.choice(("cut", "flip", "many", "page")):
        case "cut":
            return held[:at]
        case "flip":
            return held[:at] + bytes([held[at] ^ 1 << chance.randrange(8)]) + held[at + 1 :]
        case "many":
            return bytes(byte ^ (chance.random() < 0.01) for byte in held)
        case _:
            return held[:at] + bytes(min(PAGE, len(held) - at)) + held[at + PAGE :]


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("which", ["handsfree.db", "handsfree.ends", "soundtrack-*", "words-*"])
def test_a_page_or_one_sentence(
    handsfree: Command, drilled: Path, tmp_path: Path, which: str, seed: int
) -> None:
    """Debrief and export do all they can, or say in one line why they can't; neither breaks."""
    folder, page, out = tmp_path / "hurt", tmp_path / "page.html", tmp_path / "out"
    shutil.copytree(drilled, folder)
    (file,) = folder.rglob(which)
    file.write_bytes(hurt(file.read_bytes(), random.Random(f"{which} {seed}")))

    for command, made in (("debrief", page), ("export", out)):
        ran = handsfree(command, "last", "--sessions", folder, "--out", made)
        assert "fault of its own" not in ran.err
        assert made.exists() == (ran.status == 0)
        if ran.status:
            assert (ran.status in (1, 3), ran.out, len(ran.complaints)) == (True, "", 1)
    if page.exists():
        assert page.read_text("utf-8").endswith("</html>")
    if out.exists():
        assert (out / "events.jsonl").read_text("utf-8")
