"""What a checklist leaves unclear is told, and nothing else."""

from __future__ import annotations

import pytest

from handsfree.care.checklist_file import read_checklist
from handsfree.care.remarks import remarks

HEAD = 'name = "mine"\n[[phase]]\nname = "all"\ntitle = "All"\n'
TWO = '[[phase.step]]\nname = "two"\nsay = "two"\n'
BAD = '[[phase.finding]]\nname = "bad"\nsay = "bad"\n'
CLEAR = '[[phase.step]]\nname = "one"\ndo = "Do it."\nhow = "So."\nsay = "done it"\n'
LONG = " ".join(["word"] * 21)

REMARKS = [
    ("", []),
    (f'{TWO}do = "Do."', ["two has neither how nor why"]),
    (f'{TWO}do = "Do."\nwhy = "So."', []),
    (f'{TWO}do = "{LONG}"\nhow = "So."', ["two says more than 20 words"]),
    (
        f'{TWO}do = "Do."\nhow = "So."\ncues = [{{after_s = 5, say = "Now."}}]',
        ["two has times, and no source"],
    ),
    (f'{BAD}tell = "{LONG}"', ["bad tells more than 20 words"]),
    (f'{BAD}tell = "Stop."\nattempts = {{most = 2, say = "Get help."}}', ["bad limits attempts, and has no"]),
]


@pytest.mark.parametrize(("added", "told"), REMARKS)
def test_is_told(added: str, told: list[str]) -> None:
    """One remark for each thing, about its step or finding."""
    found = [f"{one.name} {one.text}" for one in remarks(read_checklist(HEAD + CLEAR + added, "mine.toml"))]

    assert len(told) == len(found)
    assert [] == [begin for begin, text in zip(told, found, strict=True) if not text.startswith(begin)]
