"""What a step of a checklist is called where it is read."""

from __future__ import annotations

import re

from handsfree.care.checklist import Checklist

_PLACE = re.compile(r"\{(\w+)\}")


def title(checklist: Checklist, step: str) -> str:
    """The title of the step of this name: what is to be done, its places by their names. Raises KeyError."""
    return _PLACE.sub(lambda place: place[1].replace("_", " "), checklist.step(step).do)
