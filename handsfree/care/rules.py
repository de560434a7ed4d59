"""The one table of rules: which command is open in which mode. The grammar of the moment is made from it,
and the state chart in DEVELOPERS.md is drawn from it. What the table does not open cannot be heard."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from functools import cache
from types import MappingProxyType

from handsfree.care.manner import MANNERS


class Mode(Enum):
    """What the session waits for."""

    WALKING = "walking"
    CONFIRMING = "confirming"
    STOPPED = "stopped"
    CHOOSING = "choosing"
    ASKING = "asking"
    REASONING = "reasoning"
    ENDING = "ending"
    HELD = "held"
    ASLEEP = "asleep"
    OVER = "over"


_W, _C, _S, _O, _Q, _R, _E, _H, _A = list(Mode)[:9]

ANSWERS = "answers"
"""Stands for the steps' own words and values, and for findings."""

EMERGENCIES = "emergencies"
"""Stands for every emergency."""

CHECKLISTS = "checklists"
"""Stands for the words of every checklist that may begin over the one at hand."""

OTHERS = frozenset({ANSWERS, EMERGENCIES, CHECKLISTS})
"""What in the table stands for other rules."""

QUESTIONS = ("question", "bare_question", "count", "follow_up", "finish_asked", "keep_open")
"""Questions about numbers: they only inform. `count` is one where no step takes it as its answer."""

OPEN: Mapping[str, frozenset[Mode]] = MappingProxyType(
    {
        ANSWERS: frozenset({_W, _C, _S}),
        EMERGENCIES: frozenset({_W, _C, _S, _O, _Q, _R, _E, _H, _A}),
        CHECKLISTS: frozenset({_W, _S}),
        "leave": frozenset({_W, _C, _S}),
        "line": frozenset({_W, _C, _S}),
        "line_named": frozenset({_W, _S}),
        "line_begun": frozenset({_W, _S}),
        "next": frozenset({_W}),
        "back": frozenset({_W, _S}),
        "repeat": frozenset({_W, _C, _S, _O, _Q, _R, _E}),
        "how": frozenset({_W, _S}),
        "why": frozenset({_W, _S}),
        "where": frozenset({_W, _C, _S}),
        "left": frozenset({_W, _C, _S}),
        "read_record": frozenset({_W, _C, _S}),
        "skip": frozenset({_W}),
        "undo": frozenset({_W, _C, _S}),
        "help": frozenset({_W, _C, _S, _O, _Q, _R, _E, _H}),
        "pause": frozenset({_W, _C, _S}),
        "listen": frozenset({_A}),
        "stop": frozenset({_W, _C, _S, _O, _Q, _R, _E}),
        "carry_on": frozenset({_H}),
        "shorten": frozenset({_W}),
        "new_order": frozenset({_W, _C, _S}),
        "correct": frozenset({_C}),
        "wrong": frozenset({_C, _O, _Q, _R, _E}),
        "first": frozenset({_O}),
        "second": frozenset({_O}),
        "chosen": frozenset({_O}),
        "override": frozenset({_S}),
        "reason": frozenset({_R}),
        "remind": frozenset({_W, _S}),
        "upcoming": frozenset({_W, _S}),
        "case": frozenset({_W, _S}),
        "reminded": frozenset({_W, _S}),
        "later": frozenset({_W, _S}),
        "not_needed": frozenset({_W, _S}),
        "level": frozenset({_W, _S}),
        "bag_asked": frozenset({_W, _S}),
        "given_asked": frozenset({_W, _S}),
        "bag_changed": frozenset({_W, _S}),
        "tubing_changed": frozenset({_W, _S}),
        **dict.fromkeys(QUESTIONS, frozenset({_W, _C, _S})),
        "completion": frozenset({_Q}),
        "use_that": frozenset({_W}),
        "beat": frozenset({_W, _S}),
        "beat_off": frozenset({_W, _C, _S}),
        "faster": frozenset({_W, _S}),
        "slower": frozenset({_W, _S}),
        "count_drops": frozenset({_W, _S}),
        "just_drops": frozenset({_W, _S}),
        **dict.fromkeys(MANNERS, frozenset({_W, _C, _S})),
        "end": frozenset({_W, _C, _S, _H}),
        "end_it": frozenset({_E}),
    }
)
"""By grammar rule: the modes in which it is open."""

CHANGING = frozenset(
    {
        *("report", "leave", "next", "skip", "correct", "override", "reason", "new_order", "shorten"),
        *("remind", "case", "reminded", "later", "not_needed", "level", "bag_changed", "tubing_changed"),
        "use_that",
        "just_drops",
    }
)
"""What can be undone, besides bare values and findings."""


@cache
def commands(mode: Mode) -> tuple[str, ...]:
    """The rules that are open in a mode, without those that stand for others."""
    return tuple(rule for rule, modes in OPEN.items() if mode in modes and rule not in OTHERS)


SURE: Mapping[str, float] = MappingProxyType(dict.fromkeys(("correct", "end_it", "override"), 0.9))
"""By grammar rule: the confidence that a command needs beyond the judge's own; doubt means: not said.
What lets a number act costs most when it was not meant. Read from the table of thresholds in
docs/accuracy.md: from here on nothing was heard that was not said, in quiet, in noise of 15 dB, and from
other speech."""
