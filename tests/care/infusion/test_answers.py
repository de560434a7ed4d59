"""The object that answers a question about a flow."""

from __future__ import annotations

from datetime import time
from fractions import Fraction

import pytest

from handsfree.care.infusion.answers import STANDING_CAUTION, RateQuestion, rate_answer
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.flow import UNITS, Flow, solve
from handsfree.care.infusion.formulas import FORMULAS, method
from handsfree.care.infusion.refused import Refused


def say(number: Fraction, unit: str) -> str:
    return f"{number} {unit}"


def answer(question: RateQuestion) -> dict[str, object]:
    found = rate_answer(question, say)
    assert isinstance(found, dict), found
    return found


def test_an_order_gives_rate_drops_and_end() -> None:
    """1000 mL over 8 h by a 15 set from 22:30: all that follows, nothing that was given."""
    question = RateQuestion(
        Flow(Fraction(1000), Fraction(480), drop_factor_per_ml=Fraction(15)), start=time(22, 30)
    )

    assert answer(question) == {
        "rate": {"exact": "125", "rounded": "125", "unit": "mL/h"},
        "drop_rate": {"exact": "125/4", "rounded": "31", "unit": "gtt/min"},
        "seconds_per_drop": {"exact": "48/25", "rounded": "1.9", "unit": "s"},
        "ends_at": "06:30",
        "ends_day": 1,
        "says": "125 mL/h, 31 gtt/min, one drop every 19/10 s, 7 gtt or 8 gtt in 15 s.",
        "method": "mL/h = mL x 60 / min (IV formula hand-out with worked answers); "
        "gtt/min = mL x (gtt/mL) / min "
        "(Pharmacology Math for the Practical Nurse, MD0904, US Army Medical Department, page 123); "
        "s from drop to drop = 60 / (gtt/min)",
        "cautions": [STANDING_CAUTION],
    }


def test_a_time_has_hours_and_minutes() -> None:
    """500 mL at 75 mL/h take 6 h 40 min (Nursing Skills, section 5.16, Open RN)."""
    found = answer(RateQuestion(Flow(Fraction(500), rate_ml_per_h=Fraction(75)), start=time(2, 9)))

    assert found["time"] == {"exact": "400", "rounded": "400", "unit": "min", "text": "6 h 40 min"}
    assert (found["ends_at"], found["ends_day"], found["says"]) == ("08:49", 0, "6 h 40 min.")


def test_a_count_gives_the_rate_and_its_error() -> None:
    """Eight drops of a 15 set in 15 s are 128 mL/h, give or take 16."""
    found = answer(RateQuestion(Flow(drop_factor_per_ml=Fraction(15)), count=Count(8, Fraction(15))))

    assert found["rate"] == {"exact": "128", "rounded": "128", "unit": "mL/h"}
    assert found["drop_rate"] == {"exact": "32", "rounded": "32", "unit": "gtt/min"}
    assert found["cautions"] == [STANDING_CAUTION, "One drop more or less is 16 mL/h."]


def test_a_count_alone_gives_the_drops() -> None:
    """Without a drop factor, the count gives drops a minute and the beat, and no rate."""
    found = answer(RateQuestion(Flow(), count=Count(8, Fraction(15))))

    assert {"drop_rate", "seconds_per_drop", "says", "method", "cautions"} == found.keys()


def test_drops_alone_give_the_beat() -> None:
    """A drop rate tells the seconds from drop to drop."""
    found = answer(RateQuestion(Flow(drop_rate_per_min=Fraction(30))))

    assert found["seconds_per_drop"] == {"exact": "2", "rounded": "2", "unit": "s"}


def test_a_rounding_that_changes_the_flow_is_told() -> None:
    """2.5 drops a minute become 3 (short published questions and answers): a fifth more."""
    found = answer(RateQuestion(Flow(rate_ml_per_h=Fraction(10), drop_factor_per_ml=Fraction(15))))

    assert found["cautions"] == [STANDING_CAUTION, "Rounding to 3 gtt/min changes it by 20 %."]


def test_drops_that_stream_have_no_beat() -> None:
    """A stream cannot be counted: the answer says so and tells no beat."""
    found = answer(RateQuestion(Flow(rate_ml_per_h=Fraction(6000), drop_factor_per_ml=Fraction(20))))

    assert "seconds_per_drop" not in found
    assert any("2000 gtt/min is above" in str(caution) for caution in _list(found["cautions"]))


def _list(value: object) -> list[object]:
    assert isinstance(value, list)
    return value


REFUSED = (
    (RateQuestion(Flow()), "Too little"),
    (RateQuestion(Flow(Fraction(1000), Fraction(480), Fraction(100))), "do not fit"),
    (RateQuestion(Flow(Fraction(1000), Fraction(0))), "not more than zero"),
    (RateQuestion(Flow(drop_rate_per_min=Fraction(0))), "not more than zero"),
    (RateQuestion(Flow(Fraction(1000), Fraction(1))), "above what is possible"),
    (RateQuestion(Flow(rate_ml_per_h=Fraction(1), drop_factor_per_ml=Fraction(10))), "rounded to zero"),
    (RateQuestion(Flow(), count=Count(0, Fraction(15))), "No drop"),
    (RateQuestion(Flow(drop_rate_per_min=Fraction(42)), count=Count(15, Fraction(15))), "the count makes 60"),
)


@pytest.mark.parametrize(("question", "reason"), REFUSED)
def test_what_has_no_answer_is_refused(question: RateQuestion, reason: str) -> None:
    """Too little, contradictory, impossible, vanishing: a reason in place of numbers."""
    found = rate_answer(question, say)

    assert isinstance(found, Refused)
    assert reason in found.reason


def test_a_count_within_one_drop_agrees() -> None:
    """Ten drops in 15 s are what 42 drops a minute show, to one drop."""
    found = rate_answer(
        RateQuestion(Flow(drop_rate_per_min=Fraction(42)), count=Count(10, Fraction(15))), say
    )

    assert isinstance(found, dict)


def test_numbers_that_agree_are_said_to() -> None:
    """Where nothing is left to find, the answer says that the numbers agree."""
    found = answer(RateQuestion(Flow(Fraction(1000), Fraction(480), Fraction(125))))

    assert found == {"says": "The numbers agree.", "method": "", "cautions": [STANDING_CAUTION]}


@pytest.mark.parametrize("formula", FORMULAS)
def test_every_formula_gives_its_number(formula: object) -> None:
    """What a formula needs is enough to find what it gives, and then it is named."""
    way = next(each for each in FORMULAS if each is formula)
    known = Flow(**dict.fromkeys(way.needs, Fraction(60)))
    flow = solve(known)

    assert way.needs | {way.gives} <= UNITS.keys()
    assert isinstance(flow, Flow)
    assert way.gives in flow.known()
    assert f"{way.text} ({way.source})" in method(known, flow)
