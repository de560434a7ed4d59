"""What is still open, by name. Pure."""

from __future__ import annotations

from handsfree.care.session import Session
from handsfree.say.numbers import spoken

MOST_CHOICES = 6
"""How many things are named, or offered, in one breath."""


def left(session: Session) -> str:
    """What is not closed, by name; at most six."""
    left = tuple(step.name for step in session.left_open())
    return still_open(left) if left else "Every step is done."


def still_open(steps: tuple[str, ...]) -> str:
    """Steps by name; at most six."""
    names = ", ".join(step.replace("_", " ") for step in steps[:MOST_CHOICES])
    more = f", and {spoken(len(steps) - MOST_CHOICES)} more" if len(steps) > MOST_CHOICES else ""
    return f"Still open: {names}{more}."
