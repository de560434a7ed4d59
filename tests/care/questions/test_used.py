"""An answer used for the plan: proposed, read back, refused where it is out of bounds, confirmed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care import events as e
from handsfree.care.session import State
from tests.care.questions.asked import TO_PLAN, asked, events
from tests.dialogues import RUN, TO_RUN, told


def test_an_answer_changes_nothing_before_it_is_used_and_confirmed() -> None:
    """ "Use that" reads it back; the plan changes with "correct", and the drops are to be set anew."""
    asks = ("five hundred mils over four hours on a fifteen set", "use that", "correct")
    rates = [asked(*asks[:n], after=TO_PLAN).session.rate for n in range(4)]
    assert [rate and rate.drop_rate_per_min for rate in rates] == [*[Fraction(125, 3)] * 3, Fraction(125, 4)]

    talk = asked(*asks, after=(*TO_RUN, *RUN))
    assert "Five hundred, five zero zero millilitres, over four hours, fifteen, one five" in " ".join(
        talk.said
    )
    assert {talk.session.mark(step).state for step in ("clamp_open", "counted")} == {State.OPEN}


@pytest.mark.parametrize(
    ("question", "read_back"),
    [
        (
            "how fast is five hundred mils over four hours",
            "Five hundred, five zero zero millilitres, over four hours.",
        ),
        (
            "catch up six hundred left and five hours to go",
            "At one hundred twenty, one two zero millilitres an hour.",
        ),
        ("hourly maintenance for 22 kilos", "At sixty two, six two millilitres an hour."),
        (
            "deficit five percent 22 kilos over 48 hours",
            "At twenty two point nine, two two point nine millilitres an hour.",
        ),
        ("bolus of ten mils per kilo for 18 kilos", "One hundred eighty, one eight zero millilitres."),
        (
            "rule of ten for thirty percent at 70 kilos just now",
            "At three hundred, three zero zero millilitres an hour.",
        ),
        (
            "burn forty percent 80 kilos parkland ten hours ago nothing given",
            "At four hundred, four zero zero millilitres an hour.",
        ),
    ],
)
def test_what_is_proposed(question: str, read_back: str) -> None:
    """The rate, or volume and time, as they were said; each waits for "correct"."""
    talk = asked(question, "use that", after=TO_PLAN)
    assert talk.last == f"{read_back} Correct?"
    assert talk.session.rate == told(*TO_PLAN).session.rate


@pytest.mark.parametrize(
    ("question", "why"),
    [
        ("what's the concentration of 100 milligrams in 500", "The plan takes nothing new of that answer."),
        (
            "draw up sixty milligrams from twenty milligrams in two mils",
            "The plan takes nothing new of that answer.",
        ),
        ("nine drops in fifteen seconds", "The plan takes nothing new of that answer."),
        (
            "dopamine ten micrograms per minute 200 milligrams in 250",
            "Vasopressors are never computed as a drip here. Use a pump and a second checker.",
        ),
    ],
)
def test_what_cannot_be_used(question: str, why: str) -> None:
    """An answer that is no rate of the plan, or that must not drip, is refused in words."""
    talk = asked(question, "use that", after=TO_PLAN)
    assert talk.last == why
    assert talk.session.proposal is None


@pytest.mark.parametrize(
    ("question", "unusual"),
    [
        (
            "deficit twelve percent at 22 kilos over 48 hours",
            "12 % is above what is usual, 10 % (local policy).",
        ),
        (
            "hourly maintenance for 90 kilos",
            "130 millilitres an hour is above what is usual, 100 millilitres an hour",
        ),
        (
            "bolus of forty mils per kilo for 30 kilos over one hour",
            "40 mL/kg is above what is usual, 30 mL/kg",
        ),
        (
            "five milligrams per hour 100 milligrams in 500",
            "Potassium, vasopressors, insulin and heparin are not given by drops",
        ),
        ("catch up 800 left and two hours to go", "ask before more than about 25 % (from memory)"),
    ],
)
def test_what_is_unusual_is_confirmed_twice(question: str, unusual: str) -> None:
    """Also where the limit is one of a weight, a dose or a fluid, and not of the flow."""
    once = asked(question, "use that", "correct", after=TO_PLAN)
    assert unusual in once.last
    assert once.session.rate == told(*TO_PLAN).session.rate
    twice = asked(question, "use that", "correct", "correct", after=TO_PLAN)
    assert events(twice, e.ProposalConfirmed)[len(events(once, e.ProposalConfirmed)) :]
