"""What a step of a checklist is called where it is read."""

from __future__ import annotations

from handsfree.care.checklist import Checklist
from handsfree.care.practice.plain import to_do


def title(checklist: Checklist, step: str) -> str:
    """The title of the step of this name: what is to be done. Raises KeyError."""
    return to_do(checklist.step(step).do)
