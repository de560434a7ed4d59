"""The pictures that people see show the program as it is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.house.documents import ROOT
from tests.house.pictures import PICTURES, different

MOST = 0.005
"""Of the picture. Drawn twice on one machine 0.0007 is different; another moment of the board is 0.16."""


def test_every_picture_is_drawn_by_the_command() -> None:
    """Each that a page shows, and no other."""
    pages = [ROOT / "README.md", *(ROOT / "docs").glob("*.md")]
    shown = {
        (page.parent / picture).relative_to(ROOT).as_posix()
        for page in pages
        for picture in re.findall(r"!\[[^]]*\]\(([^)]+)\)", page.read_text("utf-8"))
    }
    assert shown == set(PICTURES)


@pytest.mark.browser
@pytest.mark.parametrize("place", PICTURES)
def test_a_picture_is_as_it_would_be_drawn_now(browser: Browser, tmp_path: Path, place: str) -> None:
    """Else draw it anew: `python -m tests.house.pictures`."""
    PICTURES[place](browser, tmp_path / "now.png")
    assert different(browser, ROOT / place, tmp_path / "now.png") < MOST
