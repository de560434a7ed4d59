"""What is still open, by name. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from handsfree.care.session import Session
from handsfree.say.numbers import spoken
from handsfree.words import worded

MOST_CHOICES = 6
"""How many things are named, or offered, in one breath."""


def left(session: Session) -> str:
    """What is not closed, by name; at most six."""
    left = tuple(step.name for step in session.left_open())
    return still_open(left) if left else worded("Every step is done.")


def still_open(steps: tuple[str, ...]) -> str:
    """Steps by name; at most six."""
    return worded("Still open: {steps}.", steps=_named(steps))


def gone_on(steps: tuple[str, ...]) -> str:
    """Steps that were closed though they were stopped, by name; at most six."""
    return worded("Gone on anyway: {steps}.", steps=_named(steps))


def _named(steps: tuple[str, ...]) -> str:
    return first_of([step.replace("_", " ") for step in steps], MOST_CHOICES)


def first_of(names: Sequence[str], most: int) -> str:
    """The first names, and how many more there are."""
    listed = ", ".join(names[:most])
    if len(names) <= most:
        return listed
    return worded("{names}, and {number} more", names=listed, number=spoken(len(names) - most))
