"""The texts of a step where none of its values are told: what is to be done, and why."""

from __future__ import annotations

import re

from handsfree.words import worded

_PLACE = re.compile(r"\{(\w+)\}")
_SENTENCE = re.compile(r"(?<=\.) ")


def to_do(text: str) -> str:
    """What is to be done: places by their names, without the sentences that only tell values."""
    first, *more = _SENTENCE.split(text)
    kept = [first, *(one for one in more if not _PLACE.search(one))]
    return _PLACE.sub(lambda place: worded("the {place}", place=place[1].replace("_", " ")), " ".join(kept))


def reason(text: str) -> str:
    """Why: without the sentences that only tell values."""
    return " ".join(one for one in _SENTENCE.split(text) if not _PLACE.search(one))
