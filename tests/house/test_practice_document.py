"""docs/practice.md explains every key by which practice is marked, and its example works."""

from __future__ import annotations

import re
from dataclasses import MISSING, fields

import pytest

from handsfree.care.assessment import Assessment, Fault, Rule
from handsfree.care.checklist_file import read_checklist
from handsfree.care.practice.terms import Terms
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.testing.dialogue import talk
from handsfree.wiring import read_shipped, sounds
from tests.house.documents import ROOT, blocks

TEXT = (ROOT / "docs" / "practice.md").read_text("utf-8")
EXAMPLE = blocks("docs/practice.md", "toml")[0]
DIALOGUE = blocks("docs/practice.md", "text")[0].splitlines()


def keys(title: str) -> dict[str, bool]:
    """Each key under a title, and whether it is said to be needed."""
    part = TEXT.split(f"## `{title}`\n")[1].split("\n## ")[0]
    return {key: "Needed." in is_ for key, is_ in re.findall(r"^\| `(\w+)` \| (.*) \|$", part, re.MULTILINE)}


@pytest.mark.parametrize(
    ("title", "kind"), [("[[rule]]", Rule), ("[[fault]]", Fault), ("[assessment]", Assessment)]
)
def test_every_key_is_explained(title: str, kind: type) -> None:
    """A table has the fields of its class, and tells which of them are needed."""
    expected = {one.name: one.default is MISSING and one.default_factory is MISSING for one in fields(kind)}

    assert expected == keys(title)


def test_example_is_talked_through() -> None:
    """The dialogue of the example as it stands: a skill that is made by writing TOML alone."""
    checklist = read_checklist(EXAMPLE, "hand_rub.toml")
    words = Lexicon(practice_vocabulary(checklist), read_shipped, knows_all, sounds())
    script = [line.removeprefix("> ") for line in DIALOGUE if line.startswith((">", "+"))]

    assert DIALOGUE == list(talk(script, checklist, words, kind="practice", terms=Terms()).lines)
