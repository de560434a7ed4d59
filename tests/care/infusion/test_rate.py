"""The answer to a question about a flow."""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction

import pytest

from handsfree.care.infusion import formulas
from handsfree.care.infusion.answer import Answer, Terms
from handsfree.care.infusion.catch_up import Behind
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.rate import RateQuestion, rate_answer
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.infusion.sheet import STANDING_CAUTION
from handsfree.care.infusion.span import Span


def say(number: Fraction, unit: str) -> str:
    return f"{number} {unit}"


def answer(question: RateQuestion) -> dict[str, object]:
    found = rate_answer(question, say)
    assert isinstance(found, Answer), found
    return found.as_json()


def at(clock: str) -> datetime:
    return datetime.fromisoformat(f"2031-05-04T{clock}")


def test_an_order_gives_rate_drops_and_end() -> None:
    """1000 mL over 8 h by a 15 set from 22:30: all that follows, nothing that was given."""
    question = RateQuestion(
        Flow(Fraction(1000), Fraction(480), drop_factor_per_ml=Fraction(15)), span=Span(at("22:30"))
    )

    ways = (formulas.FLOW[0], formulas.FLOW[2])

    assert answer(question) == {
        "rate": {"exact": "125", "rounded": "125", "unit": "mL/h"},
        "drop_rate": {"exact": "125/4", "rounded": "31", "unit": "gtt/min"},
        "seconds_per_drop": {"exact": "48/25", "rounded": "1.9", "unit": "s"},
        "count_15_s": {"exact": "125/16", "rounded": "8", "unit": "gtt"},
        "count_30_s": {"exact": "125/8", "rounded": "16", "unit": "gtt"},
        "count_60_s": {"exact": "125/4", "rounded": "31", "unit": "gtt"},
        "bags_per_day": {"exact": "3", "rounded": "3", "unit": "bags/day"},
        "ends_at": "06:30",
        "ends_day": 1,
        "says": "125 mL/h, 31 gtt/min; one drop every 19/10 s, 7 gtt or 8 gtt in 15 s.",
        "working": [
            "rate: 1000 mL ÷ 480 min × 60 min/h = 125 mL/h",
            "drop rate: 1000 mL × 15 gtt/mL ÷ 480 min = 31.25, say 31 gtt/min",
            "seconds per drop: 1 gtt × 60 s/min ÷ 31.25 gtt/min = 1.92, say 1.9 s",
            "count 15 s: 31.25 gtt/min × 15 s ÷ 60 s/min = 7.8125, say 8 gtt",
            "count 30 s: 31.25 gtt/min × 30 s ÷ 60 s/min = 15.625, say 16 gtt",
            "count 60 s: 31.25 gtt/min × 60 s ÷ 60 s/min = 31.25, say 31 gtt",
            "bags per day: 24 h/day × 60 min/h ÷ 480 min = 3 bags/day",
        ],
        "method": "; ".join(way.method for way in (*ways, formulas.BEAT, *formulas.COUNTS, formulas.BAGS)),
        "cautions": [STANDING_CAUTION],
    }


def test_a_time_has_hours_and_minutes() -> None:
    """500 mL at 75 mL/h take 6 h 40 min (Nursing Skills, section 5.16, Open RN)."""
    found = answer(RateQuestion(Flow(Fraction(500), rate_ml_per_h=Fraction(75)), span=Span(at("02:09"))))

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

    told = {"drop_rate", "seconds_per_drop", "count_15_s", "count_30_s", "count_60_s"}
    assert {*told, "says", "working", "method", "cautions"} == found.keys()


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
    (RateQuestion(Flow(Fraction(1000), Fraction(1))), "above the limit"),
    (RateQuestion(Flow(rate_ml_per_h=Fraction(1), drop_factor_per_ml=Fraction(10))), "rounded to zero"),
    (RateQuestion(Flow(), count=Count(0, Fraction(15))), "A count is of drops"),
    (RateQuestion(Flow(drop_rate_per_min=Fraction(42)), count=Count(15, Fraction(15))), "the count makes 60"),
    (
        RateQuestion(Flow(Fraction(1000), Fraction(480)), span=Span(at("22:00"), at("08:00"))),
        "From 22:00 it would end at 06:00, not at 08:00.",
    ),
    (RateQuestion(Flow(Fraction(1000), Fraction(480)), behind=Behind(Fraction(1000), Fraction(60))), "left"),
    (RateQuestion(Flow(Fraction(1000), Fraction(480)), behind=Behind(Fraction(10), Fraction(480))), "left"),
    (RateQuestion(Flow(drop_rate_per_min=Fraction(9)), behind=Behind(Fraction(1), Fraction(1))), "catch up"),
    (
        RateQuestion(Flow(Fraction(20000), Fraction(480)), behind=Behind(Fraction(1), Fraction(479))),
        "above the limit",
    ),
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

    assert isinstance(found, Answer)


def test_numbers_that_agree_are_said_to() -> None:
    """Where nothing is left to find, the answer says that the numbers agree."""
    found = answer(RateQuestion(Flow(Fraction(1000), Fraction(480), Fraction(125))))

    assert found["says"] == "the numbers agree."
    assert "rate" not in found


def test_bags_a_day() -> None:
    """A litre at 125 mL/h: 8 h, three bags a day (a pharmacy-technician page)."""
    found = answer(RateQuestion(Flow(Fraction(1000), rate_ml_per_h=Fraction(125))))

    assert ("480", "3") == (_dict(found["time"])["exact"], _dict(found["bags_per_day"])["exact"])


def test_a_standard_set_has_a_tolerance() -> None:
    """20 or 60 drops give 1 mL, give or take a tenth (ISO 8536-4:2020 clause 7.8, second hand); of other sets
    the standard says nothing."""
    known = Flow(rate_ml_per_h=Fraction(125), drop_factor_per_ml=Fraction(20))
    found = answer(RateQuestion(known))

    assert ("225/2", "275/2") == tuple(
        _dict(found[name])["exact"] for name in ("lowest_rate", "highest_rate")
    )
    assert "lowest_rate" not in answer(
        RateQuestion(Flow(rate_ml_per_h=known.rate_ml_per_h, drop_factor_per_ml=Fraction(15)))
    )


TRUE_SETS = ((20, "18.2", "22.2"), (60, "54.5", "66.7"))


@pytest.mark.parametrize(("drop_factor", "fewest", "most"), TRUE_SETS)
def test_what_a_set_may_truly_be(drop_factor: int, fewest: str, most: str) -> None:
    """A 20 set may truly have 18.2 to 22.2 drops for a millilitre, a 60 set 54.5 to 66.7 (derived from the
    tolerance): with so many the same drops are the highest and the lowest rate."""
    found = answer(
        RateQuestion(Flow(drop_rate_per_min=Fraction(30), drop_factor_per_ml=Fraction(drop_factor)))
    )
    true = [1800 / Fraction(_dict(found[name])["exact"]) for name in ("highest_rate", "lowest_rate")]

    assert [fewest, most] == [POLICY.write(one, "gtt/mL").split()[0] for one in true]


def _dict(value: object) -> dict[str, str]:
    assert isinstance(value, dict)
    return value


def test_behind_the_order() -> None:
    """300 of 1000 mL in after 4 of 8 h: volume left in the time left (drug calculation review). A change of
    more than a quarter is to be asked about (from memory)."""
    known = Flow(Fraction(1000), Fraction(480), drop_factor_per_ml=Fraction(15))
    found = answer(RateQuestion(known, behind=Behind(Fraction(300), Fraction(240))))

    assert ["700", "240", "175", "175/4"] == [
        _dict(found[name])["exact"]
        for name in ("volume_left", "time_left", "catch_up_rate", "catch_up_drop_rate")
    ]
    assert "175/4" == _dict(found["count_60_s"])["exact"]
    assert "Catching up changes the rate by 40 %: ask before more than about 25 % (from memory)." in _list(
        found["cautions"]
    )


def test_a_gauge_is_a_plausibility_check() -> None:
    """5000 mL/h is more than 20 gauge lets through (emergency department handbook, South Australia)."""
    cautions = answer(RateQuestion(Flow(rate_ml_per_h=Fraction(5000), volume_ml=Fraction(1000)), gauge=20))

    assert any("more than 20 gauge" in str(caution) for caution in _list(cautions["cautions"]))


def test_what_needs_a_pump_has_no_drops() -> None:
    """Its rate stays open, for a pump; its drops are refused (common practice, no source)."""
    pump = RateQuestion(Flow(Fraction(250), rate_ml_per_h=Fraction(5)), name="Heparin 25,000 units")
    drip = RateQuestion(Flow(drop_rate_per_min=Fraction(5)), name="Heparin 25,000 units")

    assert "Use a pump and a second checker." in _list(answer(pump)["cautions"])
    assert Refused(
        "Heparin is never computed as a drip here. Use a pump and a second checker."
    ) == rate_answer(drip, say)


def test_children_get_a_burette_or_a_pump() -> None:
    """A drip for a child asks for the weight, and for a burette or a pump (common practice, no source)."""
    known = Flow(rate_ml_per_h=Fraction(40), drop_factor_per_ml=Fraction(60))
    found = answer(RateQuestion(known, terms=Terms(Patient.CHILD)))

    assert "For a child confirm the weight, and ask for a burette or a pump." in _list(found["cautions"])


SPANS = (
    (("22:00", "06:00"), "480"),
    (("06:00", "22:00"), "960"),
    (("07:00", "07:00"), "1440"),
)


@pytest.mark.parametrize(("span", "time_min"), SPANS)
def test_start_and_end_tell_the_time(span: tuple[str, str], time_min: str) -> None:
    """From the start to the next time that the clock shows the end, over midnight if need be."""
    found = answer(RateQuestion(Flow(Fraction(1000)), span=Span(*map(at, span))))

    assert time_min == _dict(found["time"])["exact"]


def test_an_end_tells_the_start() -> None:
    """What takes eight hours and ends at 06:00 starts at 22:00 on the day before."""
    found = answer(RateQuestion(Flow(Fraction(1000), Fraction(480)), span=Span(end=at("06:00"))))

    assert ("22:00", -1) == (found["starts_at"], found["starts_day"])
