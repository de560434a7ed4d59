"""Marks of the skill that is built in docs/practice.md, on text."""

from __future__ import annotations

import pytest

from tests.care.practice.practised import rubbed
from tests.care.practice.rub_runs import RUNS
from tests.care.practice.test_marking import marks


@pytest.mark.parametrize("name", RUNS)
def test_marks_are_those_expected(name: str) -> None:
    """Every step, failure and fault of a run is marked as it should be, and nothing else."""
    session = rubbed(*RUNS[name].script()).session

    assert RUNS[name] == marks(session.marking(session.started), RUNS[name])
