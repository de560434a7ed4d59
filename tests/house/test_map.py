"""DEVELOPERS.md describes the program as it is."""

from __future__ import annotations

import re

from handsfree.care.chart import chart
from tests.house.documents import ROOT, modules

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")
MAP = TEXT.split("## The map")[1].split("\n## ")[0]


def test_map_names_every_file_once() -> None:
    """Every module of the package has its line, and every line its module; markers of folders need none."""
    named = re.findall(r"^\| `([\w/]+\.py)` \|", MAP, re.MULTILINE)
    empty = {"__init__.py"}
    there = [
        module.as_posix()
        for module in modules()
        if module.name not in empty or module.parts[:2] == ("care", "events")
    ]

    assert sorted(there) == sorted(named)


def test_chart_is_the_table() -> None:
    """The state chart is drawn from the table of rules, and was drawn again after its last change."""
    drawn = re.search(r"<!-- chart -->\n(.*?)\n?<!-- /chart -->", TEXT, re.DOTALL)

    assert drawn is not None
    assert chart().strip() == drawn[1].strip()


def test_what_is_linked_is_there() -> None:
    """Links and paths in the text lead to files of the repository."""
    paths = re.findall(r"\]\(([^)#]+)\)", TEXT) + re.findall(
        r"`((?:docs|tests|grammars|handsfree|\.ci)/[\w./]+)`", TEXT
    )

    assert [] == [path for path in paths if not (ROOT / path).exists()]
