"""The other checklists that may begin while one is walked through, and those that may begin over them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import PurePosixPath

from handsfree.care.checklist import Checklist
from handsfree.words import worded


def place(of: str, file: str) -> str:
    """Where the checklist stands that the file `file` calls `of`: a built-in one is its name and ending, one
    of the user's own a path that begins in the folder of `file`."""
    if "/" not in of and not of.endswith(".toml"):
        return f"{of}.toml"
    return f"{PurePosixPath(file).parent}/{of}"


def with_others(main: Checklist, read: Callable[[str], Checklist]) -> Checklist:
    """The checklist of a session, with all that may begin over it, and over those. Each hears the emergencies
    of all.

    read: the checklist that stands at a place. Raises ChecklistError, and what `read` raises.
    """
    found = {main.name: main}
    waiting, places = [main], {main.file: main.name}
    while waiting:
        one = waiting.pop()
        names = []
        for of in one.may_begin:
            at = place(of, one.file)
            if at not in places:
                other = _begins(read(at), one, found)
                places[at] = other.name
                found[other.name] = other
                waiting.append(other)
            names.append(places[at])
        found[one.name] = replace(found[one.name], may_begin=tuple(names))
    emergencies = tuple({each.name: each for one in found.values() for each in one.emergencies}.values())
    every = [replace(one, emergencies=emergencies) for one in found.values()]
    return replace(every[0], others=tuple(every[1:]))


def _begins(other: Checklist, over: Checklist, found: dict[str, Checklist]) -> Checklist:
    """The other one, which has words that begin it and a name of its own. Raises ChecklistError."""
    if other.begin is None:
        raise other.fault(
            1,
            worded("{file} lets it begin, and it has no [begin].", file=over.file),
            worded("Add [begin] with say."),
        )
    if other.name in found:
        raise other.fault(
            1,
            worded("{file} is called {name} too.", file=found[other.name].file, name=other.name),
            worded("Choose another name."),
        )
    parts = {part.name for kind in (over.steps, over.findings, over.emergencies) for part in kind}
    if other.name in parts:
        raise other.fault(
            1,
            worded("a part of {file} is called {name} too.", file=over.file, name=other.name),
            worded("Choose another name."),
        )
    return other
