"""What a practice run is marked by, as a checklist has it: rules, faults, weights."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Rule:
    """What a run must keep to. why: the reason, spoken. weight: points. critical: never averaged away.

    Of order: `step` only when all of `after` are done. Or of a stretch, which begins with one of `begins` and
    ends with the first of `ends`: it takes at least and at most so many seconds (0: no limit), and none of
    `never` is done in it. values: overrides `at_least_s` by the value of the step `by`.
    """

    name: str
    why: str
    step: str = ""
    after: tuple[str, ...] = ()
    begins: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    at_least_s: int = 0
    at_most_s: int = 0
    never: tuple[str, ...] = ()
    by: str = ""
    values: Mapping[str, int] = field(default_factory=dict)
    critical: bool = False
    weight: int = 1
    source: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """Something made to go wrong, to be met.

    say: the words by which an instructor sets it. tell: what is said of one that was drawn. right: what is
    right to do, for reading. answer: steps and findings of which one meets it, within `within_s` seconds.
    when: the step after which it comes if it is drawn; without one it is never drawn.
    """

    name: str
    say: str
    tell: str
    right: str
    answer: tuple[str, ...]
    when: str = ""
    within_s: int = 60
    critical: bool = False
    weight: int = 2


@dataclass(frozen=True, slots=True)
class Assessment:
    """How a run is marked as a whole.

    target_s: how long it should take; 0 for no target. prompted_percent: share of its weight for a step that
    was told. prompt_after_s: on the prompted level, a cue comes after so long without a step.
    faults: how many are drawn.
    """

    target_s: int = 0
    prompted_percent: int = 50
    prompt_after_s: int = 30
    faults: int = 2
