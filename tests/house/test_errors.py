"""The tree of errors in the docstring of errors.py is the tree of its classes."""

from __future__ import annotations

import re

from handsfree import errors
from handsfree.errors import HandsfreeError


def _tree(kind: type[HandsfreeError]) -> list[type[HandsfreeError]]:
    """A class and all below it; a class that is only a stepping stone is passed over."""
    below = [one for child in kind.__subclasses__() for one in _tree(child)]
    return below if kind.__name__.startswith("_") else [kind, *below]


def test_tree_is_drawn() -> None:
    """Every error stands in the drawing, in order, and the drawing names no other."""
    drawn = re.findall(r"^ {4}[│├└─ ]*([A-Z]\w+)", errors.__doc__ or "", re.MULTILINE)

    assert [kind.__name__ for kind in _tree(HandsfreeError)] == drawn


def test_exit_status_is_drawn() -> None:
    """The number beside a class is the exit status of all below it, until another number stands there."""
    drawn = {name: int(status) for name, status in re.findall(r"([A-Z]\w+) +\((\d)\)", errors.__doc__ or "")}

    assert drawn == {name: getattr(errors, name).exit_status for name in drawn}
    assert {1, 2, 3} == set(drawn.values())


def test_every_error_is_one_line_with_its_next_step() -> None:
    """What is wrong and what to do next are said in one line."""
    assert "The file is empty. Take another." == str(HandsfreeError("The file is empty.", "Take another."))
