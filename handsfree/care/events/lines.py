"""More than one line or patient: which of them what follows is about."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineNamed:
    """The line at hand has a name from now on."""

    name: str


@dataclass(frozen=True, slots=True)
class LineBegun:
    """Another line or patient, from the first step on; it is the one at hand."""

    name: str


@dataclass(frozen=True, slots=True)
class LineTaken:
    """Another line is the one at hand; what follows is about it."""

    name: str


@dataclass(frozen=True, slots=True)
class LineAside:
    """What follows is about this line, until LineResumed; the one at hand waits."""

    name: str


@dataclass(frozen=True, slots=True)
class LineResumed:
    """What was about another line is over. name: the one that is at hand from now on."""

    name: str
