"""Checklists that may begin over others, as files: read together, and refused by file and line."""

from __future__ import annotations

import pytest

from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from handsfree.care.checklist_others import place, with_others
from handsfree.care.session import State
from handsfree.care.vocabulary import vocabulary
from handsfree.errors import ChecklistError
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.testing.dialogue import talk
from handsfree.wiring import read_shipped, sounds

DONE = "Every step is done. Say end session to finish."

TENT = """name = "tent"
may_begin = ["box.toml"]
[[phase]]
name = "one"
title = "One"
[[phase.step]]
name = "begun"
do = "Begin."
say = "tent begun"
"""
BOX = """name = "box"
may_begin = ["tent.toml"]
[begin]
say = "check the box"
[[phase]]
name = "one"
title = "One"
[[phase.step]]
name = "begun"
do = "Open it."
say = "box open"
[[emergency]]
name = "fire"
say = "fire in the box"
tell = "Out."
"""


def together(tent: str = TENT, box: str = BOX) -> Checklist:
    main = read_checklist(tent, "ward/tent.toml")
    return with_others(main, lambda at: read_checklist(box, at))


def test_steps_of_the_same_name_and_a_circle() -> None:
    """Each checklist has its own steps; they may name each other; emergencies of one are heard in all."""
    checklist = together()
    assert [(one.name, one.file) for one in checklist.others] == [("box", "ward/box.toml")]
    lexicon = Lexicon(vocabulary(checklist), read_shipped, knows_all, sounds())
    talked = talk(("fire in the box", "check the box", "box open", "tent begun"), checklist, lexicon)
    assert talked.said[1:] == ("Out.", "Box. Open it.", "Box open. Box: done. Begin.", f"Tent begun. {DONE}")
    assert talked.session.mark("begun").state is State.CLOSED


@pytest.mark.parametrize(
    ("tent", "box", "line", "wrong"),
    [
        (TENT, BOX.replace("[begin]", "").replace('say = "check the box"', ""), 1, "it has no [begin]"),
        (TENT, BOX.replace('"box"', '"tent"'), 1, "is called tent too"),
        (TENT.replace('"begun"', '"box"'), BOX, 1, "a part of ward/tent.toml is called box too"),
        (TENT, BOX.replace('"begun"', '"box"'), 3, "both called box"),
        (TENT, BOX.replace('say = "check', 'needs = "moon"\nsay = "check'), 3, "there is no clock moon"),
        (
            TENT,
            BOX.replace("say =", 'answers = ["moon"]\nsay =', 1),
            3,
            "no reminder is called moon",
        ),
        (TENT, BOX.replace('say = "check', 'tell = "so"\nsay = "check'), 3, "the key tell is not known"),
        (TENT, BOX.replace('say = "check the box"', ""), 3, "this begin has no say"),
    ],
)
def test_what_does_not_fit_is_refused_by_line(tent: str, box: str, line: int, wrong: str) -> None:
    """With the file, the line, and what to do."""
    with pytest.raises(ChecklistError) as refused:
        together(tent, box)
    assert (refused.value.line, wrong in str(refused.value)) == (line, True)


@pytest.mark.parametrize(
    ("tent", "box", "line"),
    [
        (TENT, BOX.replace("check the box", "check (the box"), 3),
        (TENT, BOX.replace("fire in", "(fire in"), 12),
        (TENT.replace("box.toml", "level.toml"), BOX.replace('name = "box"', 'name = "level"', 1), 3),
    ],
)
def test_words_that_are_no_grammar_are_refused_where_they_stand(tent: str, box: str, line: int) -> None:
    """In the file of the other checklist, at its line; so is a name that is a command."""
    checklist = together(tent, box)
    with pytest.raises(ChecklistError) as refused:
        Lexicon(vocabulary(checklist), read_shipped, knows_all, sounds())
    assert (refused.value.file, refused.value.line) == (checklist.others[0].file, line)


def test_where_another_checklist_stands() -> None:
    """A name is a built-in one; a path begins in the folder of the file that names it."""
    assert place("site_check", "ward/tent.toml") == "site_check.toml"
    assert place("box.toml", "ward/tent.toml") == "ward/box.toml"
    assert place("../box.toml", "tent.toml") == "./../box.toml"
