"""Marks of whole runs, on text: exactly those that were written down for them."""

from __future__ import annotations

from functools import cache

import pytest

from handsfree.care.practice.marks import Failure, Marking, Verdict
from handsfree.testing.dialogue import Talk
from tests.care.practice.practised import cannulated
from tests.care.practice.runs import RUNS, Run


@cache
def ran(name: str) -> Talk:
    return cannulated(*RUNS[name].script())


def marks(marking: Marking, run: Run) -> Run:
    """The marks as they are written down for a run; of a run in which nothing was done only that."""
    by_verdict = {
        verdict.value: " ".join(one.step for one in marking.of(verdict))
        for verdict in Verdict
        if verdict is not Verdict.DONE and marking.of(verdict)
    }
    all_missed = len(marking.of(Verdict.MISSED)) == len(marking.steps)
    failures = {} if all_missed else {(one.rule, one.step): _standing(one) for one in marking.failures}
    met = {
        one.fault: one.met is not None and not any(f.rule == one.fault for f in marking.failures)
        for one in marking.faults
    }
    steps = {} if all_missed else by_verdict
    return Run(run.lines, steps, failures, met, len(marking.cues), all_missed)


def _standing(failure: Failure) -> str:
    if not failure.stands:
        return "corrected"
    return "critical" if failure.critical else "stands"


@pytest.mark.parametrize("name", RUNS)
def test_marks_are_those_expected(name: str) -> None:
    """Every step, failure, fault and cue of a run is marked as it should be, and nothing else."""
    session = ran(name).session
    marking = session.marking(session.started)

    assert RUNS[name] == marks(marking, RUNS[name])
