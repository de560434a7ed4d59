"""The one table of rules of a drill: which command is open in which mode."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType

from handsfree.care.manner import MANNERS
from handsfree.signals import REPORT


class Mode(Enum):
    """What the drill waits for."""

    READY = "ready"
    """Names, and the go."""
    RUNNING = "running"
    """Marks."""
    NOTING = "noting"
    """The words of a mark, whatever they are."""
    AFTER = "after"
    """Marks that were forgotten, and the next trainee."""
    ENDING = "ending"
    OVER = "over"


_R, _M, _N, _A, _E = list(Mode)[:5]

EMERGENCIES = "emergencies"
"""Stands for every emergency."""

OWN_WORDS = "own_words"
"""A step without a verdict, as a trainee says it at work: heard so that it is not taken for a mark."""

OPEN: Mapping[str, frozenset[Mode]] = MappingProxyType(
    {
        EMERGENCIES: frozenset({_R, _M, _N, _A, _E}),
        "in_earnest": frozenset({_R, _M, _N, _A, _E}),
        "stop": frozenset({_R, _M, _A, _E}),
        "trainee": frozenset({_R, _A}),
        "drill_name": frozenset({_R, _A}),
        "go": frozenset({_R, _A}),
        REPORT: frozenset({_M, _A}),
        OWN_WORDS: frozenset({_M, _A}),
        "free_mark": frozenset({_M, _A}),
        "note": frozenset({_M, _A}),
        "lap": frozenset({_M}),
        "clock_start": frozenset({_M}),
        "clock_stop": frozenset({_M}),
        "earlier": frozenset({_M, _A}),
        "scratch": frozenset({_M, _N, _A}),
        "last_mark": frozenset({_M, _A}),
        "time_so_far": frozenset({_M, _A}),
        "by_words": frozenset({_R, _M, _A}),
        "by_sounds": frozenset({_R, _M, _A}),
        **dict.fromkeys(MANNERS, frozenset({_R, _A})),
        "finish": frozenset({_M}),
        "next_trainee": frozenset({_M, _A}),
        "repeat": frozenset({_R, _A, _E}),
        "choices": frozenset({_R, _A, _E}),
        "end": frozenset({_R, _M, _A}),
        "end_it": frozenset({_E}),
        "wrong": frozenset({_E}),
    }
)
"""By grammar rule: the modes in which it is open. In a run nothing is open that a trainee may say to others
("say that again", "help me"), but for what silences the program or tells of an emergency."""


def commands(mode: Mode) -> tuple[str, ...]:
    """The rules that are open in a mode, without the one that stands for others."""
    return tuple(rule for rule, modes in OPEN.items() if mode in modes and rule != EMERGENCIES)


SURE: Mapping[str, float] = MappingProxyType({"end_it": 0.9})
"""By grammar rule: the confidence that a command needs beyond the judge's own, as in the guide's table."""
