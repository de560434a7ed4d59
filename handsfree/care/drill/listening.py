"""What may be said now, and soon, in a drill."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from handsfree.care.drill.rules import EMERGENCIES, OPEN, Mode, commands
from handsfree.care.drill.session import Session
from handsfree.signals import Listen

_ASKS: Mapping[Mode, str] = MappingProxyType(
    {Mode.READY: "go", Mode.NOTING: "words", Mode.AFTER: "next_trainee", Mode.ENDING: "end_it"}
)

UNCALLED = ("stop", "in_earnest", "go")
"""Heard without a call word at any time, as emergencies are: what is shouted has no time for one."""


def listen(session: Session, called: bool = False) -> Listen:
    """Rules to be heard alone, and the open question.

    called: nothing was asked just now, so that a call word is wanted, where there is one.
    """
    emergencies = tuple(one.name for one in session.checklist.emergencies)
    rules = commands(session.mode)
    if session.mode in OPEN[EMERGENCIES]:
        rules += emergencies
    uncalled = (*UNCALLED, *emergencies) if called else rules
    return Listen(rules, asks=_ASKS.get(session.mode, ""), uncalled=uncalled)


def ahead(session: Session, called: bool = False) -> Iterator[Listen]:
    """What may be said in the modes to which the commands of now lead."""
    for mode in (Mode.RUNNING, Mode.NOTING, Mode.AFTER):
        if mode is not session.mode:
            yield listen(replace(session, mode=mode), called)
