"""The one table of rules of practice: which command is open in which mode."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType

from handsfree.care.manner import MANNERS


class Mode(Enum):
    """What a practice run waits for."""

    TALKING = "talking"
    ENDING = "ending"
    OVER = "over"


_T, _E = Mode.TALKING, Mode.ENDING

ANSWERS = "answers"
"""Stands for the words and values of all steps, and for findings: heard in the midst of other talk."""

FAULTS = "faults"
"""Stands for every fault, set by an instructor."""

EMERGENCIES = "emergencies"
"""Stands for every emergency."""

OPEN: Mapping[str, frozenset[Mode]] = MappingProxyType(
    {
        ANSWERS: frozenset({_T}),
        FAULTS: frozenset({_T}),
        EMERGENCIES: frozenset({_T, _E}),
        "cue": frozenset({_T}),
        "missed": frozenset({_T}),
        "where": frozenset({_T}),
        "passed": frozenset({_T}),
        "repeat": frozenset({_T, _E}),
        **dict.fromkeys(MANNERS, frozenset({_T})),
        "undo": frozenset({_T}),
        "stop": frozenset({_T, _E}),
        "saw": frozenset({_T}),
        "saw_not": frozenset({_T}),
        "accept": frozenset({_T}),
        "end": frozenset({_T}),
        "end_it": frozenset({_E}),
        "wrong": frozenset({_E}),
    }
)
"""By grammar rule: the modes in which it is open."""


def commands(mode: Mode) -> tuple[str, ...]:
    """The rules that are open in a mode, without those that stand for others."""
    stand_in = (ANSWERS, FAULTS, EMERGENCIES)
    return tuple(rule for rule, modes in OPEN.items() if mode in modes and rule not in stand_in)


SURE: Mapping[str, float] = MappingProxyType({"end_it": 0.9})
"""By grammar rule: the confidence that a command needs beyond the judge's own, as in a guided session."""
