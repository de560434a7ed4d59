"""docs/own-checklist.md explains every key that a checklist may have, and its example works."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import MISSING, Field, fields
from pathlib import Path

import pytest

from handsfree.care.checklist import (
    Attempts,
    Begin,
    Checklist,
    Cue,
    Emergency,
    Finding,
    Phase,
    Score,
    Step,
    Wait,
)
from handsfree.care.checklist_file import read_checklist
from handsfree.care.values import KINDS
from handsfree.care.vocabulary import SHIPPED, vocabulary
from handsfree.hear.typed_words import typed_words
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import read_library
from handsfree.phrases.readings import reading
from handsfree.phrases.spelling import knows_all
from handsfree.phrases.tree import Rules
from handsfree.shelf import checklist_from
from handsfree.testing.dialogue import talk
from handsfree.wiring import read_shipped, sounds
from tests.house.documents import ROOT, blocks

TEXT = (ROOT / "docs" / "own-checklist.md").read_text("utf-8")
EXAMPLE = blocks("docs/own-checklist.md", "toml")[0]
DIALOGUE = blocks("docs/own-checklist.md", "text")[0].splitlines()

MADE_BY_THE_READER = {
    *("phase", "steps", "findings", "phases", "emergencies", "scores", "file", "text", "others"),
    *("rules", "faults", "assessment"),
}
"""Fields that are no keys: they follow from where a table stands, or are tables of their own."""


def rows(title: str) -> list[list[str]]:
    """The cells of the table under a title, without its head."""
    part = TEXT.split(f"# {title}\n", maxsplit=1)[1].split("\n#")[0]
    return [re.split(r"(?<!\\)\|", row)[1:-1] for row in re.findall(r"^\| `.*\|$", part, re.MULTILINE)]


def keys(title: str) -> dict[str, bool]:
    """Each key under a title, and whether it is said to be needed; tables of tables are left out."""
    return {
        key: "Needed." in is_ for cell, is_ in rows(title) if not (key := cell.strip(" `")).startswith("[[")
    }


def needed(field: Field[object]) -> bool:
    return field.default is MISSING and field.default_factory is MISSING


@pytest.mark.parametrize(
    ("title", "kind"),
    [
        ("`[begin]`", Begin),
        ("`[[phase]]`", Phase),
        ("`[[phase.step]]`", Step),
        ("`cues`", Cue),
        ("`wait`", Wait),
        ("`[[phase.finding]]`", Finding),
        ("`[[score]]`", Score),
        ("`[[emergency]]`", Emergency),
    ],
)
def test_every_key_is_explained(title: str, kind: type) -> None:
    """The table of a key's table has the fields of its class, and tells which of them are needed."""
    expected = {one.name: needed(one) for one in fields(kind) if one.name not in MADE_BY_THE_READER}

    assert expected == keys(title)


def test_keys_of_the_file_are_explained() -> None:
    """The first table has the keys that stand before the first phase."""
    expected = {one.name for one in fields(Checklist)} - MADE_BY_THE_READER

    assert expected == set(keys("The file"))


def test_keys_of_attempts_are_explained() -> None:
    """The three keys of `attempts` stand in its row."""
    row = next(is_ for cell, is_ in rows("`[[phase.finding]]`") if "attempts" in cell)

    assert [] == [one.name for one in fields(Attempts) if f"`{one.name}`" not in row]


def test_kinds_and_grammars_are_named() -> None:
    """Every kind of value has its row; every grammar that may be used is named."""
    named = re.findall(r"`(\w+)`", TEXT.split("The grammars are:")[1].split(";")[0])

    assert list(KINDS) == [cell.strip(" `") for cell, _, _ in rows("Kinds of value")]
    assert list(SHIPPED) == named


@pytest.mark.parametrize(
    ("kind", "said", "kept"), [[c.strip(" `") for c in row] for row in rows("Kinds of value")]
)
def test_value_is_kept_as_told(kind: str, said: str, kept: str) -> None:
    """What stands as an example can be said, and is kept as the table tells."""
    library = read_library(SHIPPED, read_shipped)
    rules = Rules(library.by_name, (library.find(kind),))
    (node,) = compile_grammar(rules).match(typed_words(said))

    assert kept == reading(node)


def test_example_is_walked_through() -> None:
    """The example's dialogue, line by line, with its waits, as it stands."""
    checklist = read_checklist(EXAMPLE, "tent.toml")
    script = [line.removeprefix("> ") for line in DIALOGUE if line.startswith((">", "+"))]

    assert DIALOGUE == list(
        talk(script, checklist, Lexicon(vocabulary(checklist), read_shipped, knows_all, sounds())).lines
    )


def test_the_example_that_begins_over_another(tmp_path: Path) -> None:
    """Two files in one folder: the second begins by its words over the first, and leads back to its step."""
    tent, box = blocks("docs/own-checklist.md", "toml")[:2]
    (tmp_path / "tent.toml").write_text(f'may_begin = ["cold_box.toml"]\n{tent}', "utf-8")
    (tmp_path / "cold_box.toml").write_text(box, "utf-8")
    checklist = checklist_from(str(tmp_path / "tent.toml"))
    lexicon = Lexicon(vocabulary(checklist), read_shipped, knows_all, sounds())

    assert talk(["check the cold box", "it is cold enough"], checklist, lexicon).said[1:] == (
        "Cold box. Read the thermometer of the box.",
        "It is cold enough. Cold box: done. Open the oxygen, and listen for leaks.",
    )


def test_example_runs_from_the_command_line(tmp_path: Path) -> None:
    """As a file, by the typed ear: the same first answers, and the record is kept."""
    file = tmp_path / "tent.toml"
    file.write_text(EXAMPLE, "utf-8")
    lines = [line for line in DIALOGUE if not line.startswith("+")][:9]
    typed = "".join(f"{line[2:]}\n" for line in lines if line.startswith(">"))
    command = [
        sys.executable,
        "-m",
        "handsfree",
        "guide",
        str(file),
        "--ear",
        "typed",
        "--sessions",
        str(tmp_path),
    ]
    done = subprocess.run(command, input=typed, text=True, capture_output=True, check=False, cwd=ROOT)

    assert (0, [line for line in lines if not line.startswith(">")]) == (
        done.returncode,
        done.stdout.splitlines()[:-1],
    )
    assert (tmp_path / "handsfree.db").is_file()
