"""Points: what a run gets for its steps, rules and faults, by the weights of its checklist.

Critical errors take part with their weight, and stand alone besides: no number of points makes up for them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import Enum
from fractions import Fraction

from handsfree.care.checklist import Checklist
from handsfree.care.practice.marks import Failure, Marking, StepMark, Verdict
from handsfree.care.practice.standards import standards


class Part(Enum):
    """What points are given for."""

    STEP = "step"
    RULE = "rule"
    FAULT = "fault"


@dataclass(frozen=True, slots=True)
class Points:
    """got of `of` points. failure: because of which not all were given, where there is one."""

    part: Part
    name: str
    got: Fraction
    of: Fraction
    at: datetime | None = None
    failure: Failure | None = None


def points(checklist: Checklist, marking: Marking) -> tuple[Points, ...]:
    """Each step that applies, each rule that came into question, each fault that was set."""
    return (*_steps(checklist, marking), *_rules(checklist, marking), *_faults(checklist, marking))


def _steps(checklist: Checklist, marking: Marking) -> Iterator[Points]:
    for one in marking.steps:
        of = Fraction(checklist.step(one.step).weight)
        share = _share(one, checklist.assessment.prompted_percent)
        yield Points(Part.STEP, one.step, of * share, of, one.saying.at if one.saying else None)


def _share(one: StepMark, prompted_percent: int) -> Fraction:
    match one.verdict:
        case Verdict.MISSED | Verdict.NOT_SEEN:
            return Fraction(0)
        case Verdict.PROMPTED:
            return Fraction(prompted_percent, 100)
        case _:
            return Fraction(1)


def _rules(checklist: Checklist, marking: Marking) -> Iterator[Points]:
    said = {one.step for one in marking.steps if one.saying is not None}
    begun = {one.rule.name for one in marking.stretches}
    failed = _failed(marking)
    for rule in standards(checklist):
        if rule.step in said or rule.name in begun or rule.name in failed:
            yield _whole(Part.RULE, rule.name, rule.weight, failed.get(rule.name))


def _faults(checklist: Checklist, marking: Marking) -> Iterator[Points]:
    failed = _failed(marking)
    for one in marking.faults:
        fault = checklist.fault_to_meet(one.fault)
        if fault is not None:
            yield _whole(Part.FAULT, fault.name, fault.weight, failed.get(fault.name))


def _failed(marking: Marking) -> dict[str, Failure]:
    """The first failure of each rule that stands."""
    return {one.rule: one for one in reversed(marking.failures) if one.stands}


def _whole(part: Part, name: str, weight: int, failure: Failure | None) -> Points:
    of = Fraction(weight)
    return Points(part, name, Fraction(0) if failure else of, of, failure.at if failure else None, failure)
