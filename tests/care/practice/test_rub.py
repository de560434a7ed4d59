"""Marks of the skill that is built in docs/practice.md, on text."""

from __future__ import annotations

from functools import cache

import pytest

from handsfree.care.practice.terms import Terms
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.testing.dialogue import talk
from handsfree.wiring import read_shipped, sounds
from tests.care.practice.rub_runs import RUNS, hand_rub
from tests.care.practice.test_marking import marks


@cache
def words() -> Lexicon:
    return Lexicon(practice_vocabulary(hand_rub()), read_shipped, knows_all, sounds())


@pytest.mark.parametrize("name", RUNS)
def test_marks_are_those_expected(name: str) -> None:
    """Every step, failure and fault of a run is marked as it should be, and nothing else."""
    session = talk(RUNS[name].script(), hand_rub(), words(), kind="practice", terms=Terms()).session

    assert RUNS[name] == marks(session.marking(session.started), RUNS[name])
