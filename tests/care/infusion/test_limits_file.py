"""Limits of local policy: they take the place of the program's own, and a broken one is refused by line."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.limits import Limit, beyond
from handsfree.care.infusion.limits_file import read_limits
from handsfree.care.infusion.patient import Patient
from handsfree.care.reminders.policy_file import read_policy
from handsfree.errors import PolicyError
from tests.care.questions.asked import answers, asked
from tests.dialogues import EQUIPMENT, ORDER

WARD = """
[[limit]]
quantity = "rate"
unit = "mL/h"
high = 150.5
source = "Ward 4"
"""
"""Of our own scenario, nobody's policy."""

HARD = WARD.replace("source", "hard = true\nsource")
CHILD = WARD.replace("source", 'patient = "child"\nsource')
YOUNG = CHILD.replace("source", "hard = true\nsource")


def test_limits_are_read() -> None:
    """As they stand, decimals exactly."""
    expected = Limit("rate", None, Fraction(301, 2), "mL/h", "Ward 4", hard=True)
    assert (expected,) == read_limits(HARD, "ward.toml")


@pytest.mark.parametrize(
    ("local", "patient", "hard"),
    [
        ("", None, []),
        (WARD, None, [False]),
        (HARD, None, [True]),
        (CHILD, None, []),
        (CHILD, Patient.CHILD, [False]),
    ],
)
def test_local_limits_hold(local: str, patient: Patient | None, hard: list[bool]) -> None:
    """200 mL/h is usual, unless local policy says otherwise of this patient."""
    found = beyond(Flow(rate_ml_per_h=Fraction(200)), patient, read_limits(local, "ward.toml"))

    assert hard == [one.hard for one in found]


def test_a_local_limit_may_allow_more() -> None:
    """It takes the place of the program's own, and is not added to it."""
    loose = read_limits(WARD.replace("150.5", "3000"), "ward.toml")

    assert () == beyond(Flow(rate_ml_per_h=Fraction(2000)), local=loose)


@pytest.mark.parametrize(
    ("wrong", "right", "line", "says"),
    [
        ("quantity", "quantities", 3, "the key quantities is not known"),
        ('"rate"', '"speed"', 3, "no limit is of 'speed'"),
        ('"mL/h"', '"mL"', 4, "its unit is 'mL/h'"),
        ("high = 150.5", "", 2, "needs low, high or both"),
        ("150.5", '"150"', 2, "low and high are numbers"),
        ("150.5", "-1", 2, "low and high are numbers"),
        ("150.5", "true", 2, "low and high are numbers"),
        ("high = 150.5", "low = 9\nhigh = 1", 5, "low is above high"),
        ("source", "hard = 1\nsource", 6, "hard is true or false"),
        ("source", 'patient = "dog"\nsource', 6, "patient is one of"),
        ('source = "Ward 4"', "", 2, "no source"),
        ('"Ward 4"', f'"Ward 4"\n{WARD}', 8, "stands here twice"),
    ],
)
def test_a_bad_limit_is_refused_by_line(wrong: str, right: str, line: int, says: str) -> None:
    """In one sentence, with the line that is at fault."""
    with pytest.raises(PolicyError) as refused:
        read_limits(WARD.replace(wrong, right, 1), "ward.toml")

    assert (line, True) == (refused.value.line, says in str(refused.value))


def test_a_policy_has_both() -> None:
    """Intervals and limits stand in one file."""
    assert () == read_policy(WARD, "ward.toml", lambda name: ())


def test_a_session_holds_to_its_limits() -> None:
    """A value of a step, of another line too, and a question are held against them; a hard one refuses."""
    beyond_it = "200 millilitres an hour is above the limit of 150.5 millilitres an hour (Ward 4)."
    hard = read_limits(HARD, "ward.toml")
    assert asked("at two hundred mils an hour", after=ORDER[:5], limits=hard).last.startswith(beyond_it)

    another = (*ORDER, "this is bed one", "new patient bed two", *ORDER[:5])
    assert asked("at two hundred mils an hour", after=another, limits=hard).last.startswith(beyond_it)

    told = (*ORDER[:5], "at two hundred mils an hour", "correct", *ORDER[7:], *EQUIPMENT[:3])
    child = asked("the patient is a child", "twenty set", after=told, limits=read_limits(YOUNG, "ward.toml"))
    assert [beyond_it in said for said in child.said] == [True, True]
    assert child.session.rate is None

    question = asked("one litre over five hours on a ten set", limits=hard)
    assert (beyond_it, []) == (question.last, answers(question))


def test_an_answer_beyond_a_soft_one_is_confirmed_twice() -> None:
    """Once is not enough for it to act."""
    soft, planned = read_limits(WARD, "ward.toml"), (*ORDER, *EQUIPMENT[:5])
    ask = ("how fast is one litre over five hours", "use that", "correct")
    once = asked(*ask, after=planned, limits=soft)
    assert "(Ward 4)" in once.last
    rates = [talk.session.rate for talk in (once, asked(*ask, "correct", after=planned, limits=soft))]
    assert [125, 200] == [rate.rate_ml_per_h for rate in rates if rate]
