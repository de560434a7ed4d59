"""A reader who follows a page of docs/ word for word, in a fresh folder, gets what it prints.

Blocks `sh` are typed; blocks `console` are typed and their output is compared (`…` stands for lines that are
left out); a block after `<!-- file: NAME -->` is saved under that name. What cannot be run here says why, in
`<!-- not run: … -->`. Commands that are indented are measurements, which take hours.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house.documents import ROOT, Block, fresh, marked_blocks, shell, transcript

PAGES = sorted(f"docs/{file.name}" for file in (ROOT / "docs").glob("*.md"))

RUN = [page for page in PAGES if {"sh", "console"} & {block.language for block in marked_blocks(page)}]

pytestmark = pytest.mark.timeout(400)
"""Each page is many programs, one after the other."""

NOT_RUN = re.compile(r"not run: \w+")


def plain(text: str, folder: Path) -> str:
    """Without what differs from day to day: ids and times of sessions, and where home is."""
    text = text.replace(str(folder / "home"), "/home/you").replace("\r", "")
    text = re.sub(r"\d{8}T\d{6}(?=-)", "DAY", text)
    return re.sub(r"\d{4}-\d\d-\d\d(T[\d:.]+Z)?|\d\d:\d\d:\d\d", "TIME", text)


def same(expected: str, got: str) -> bool:
    """Whether it is what was printed; `…` on a line of its own is any number of lines."""
    pieces = [re.escape(piece) for piece in re.split(r"^…\n", expected, flags=re.MULTILINE)]
    return re.fullmatch(r"(?:.*\n)*?".join(pieces), got) is not None


def follow(block: Block, folder: Path, environment: dict[str, str]) -> None:
    """Do what a block says."""
    if block.mark.startswith("file: "):
        file = folder / block.mark.removeprefix("file: ")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(block.text, "utf-8")
    elif block.language == "sh" and not block.mark:
        for line in block.text.splitlines():
            done = shell(line, folder, environment)
            assert (line, 0) == (line, done.returncode), done.stdout
    elif block.language == "console" and not block.mark:
        for line, printed in transcript(block.text):
            got = plain(shell(line, folder, environment).stdout, folder)
            assert same(plain(printed, folder), got), f"{line}\n{got}"


@pytest.mark.parametrize("page", RUN)
def test_page_is_followed_word_for_word(page: str, tmp_path: Path) -> None:
    """Its blocks in order, in one folder."""
    environment = fresh(tmp_path)
    for block in marked_blocks(page):
        follow(block, tmp_path, environment)


@pytest.mark.parametrize("page", PAGES)
def test_every_mark_is_known(page: str) -> None:
    """A file to be saved, or a reason why a block is not run: no mark hides a block by a slip of the pen."""
    marks = [block.mark for block in marked_blocks(page) if block.mark]
    assert [] == [mark for mark in marks if not (mark.startswith("file: ") or NOT_RUN.match(mark))]


@pytest.mark.parametrize("page", PAGES)
def test_links_lead_somewhere(page: str) -> None:
    """What a page links to is in the repository."""
    targets = re.findall(r"\]\(([^)#]+)\)", (ROOT / page).read_text("utf-8"))
    assert [] == [target for target in targets if not (ROOT / "docs" / target).exists()]
