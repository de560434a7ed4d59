"""Questions about numbers in passing: asked, completed, changed, refused, and used for the plan."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care import events as e
from handsfree.care.rules import Mode
from tests.care.questions.asked import TO_PLAN, answers, asked, events
from tests.dialogues import ORDER, RUN, TO_NEEDLE, TO_RUN, told

AGAIN = "Clean your hands, then gloves and eye protection."
"""What a session asks after `ORDER`."""

LITRE = "One thousand millilitres, over eight hours"

DIALOGUES: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "a flow, and the same on another set and in another time",
        (
            "one litre over eight hours, fifteen drop set",
            "and on a sixty set",
            "over six hours instead",
            "what about five hundred mils",
        ),
        (
            f"{LITRE}, fifteen, one five drops a millilitre: one hundred twenty five millilitres an hour,"
            " thirty one drops a minute.",
            f"{LITRE}, sixty, six zero drops a millilitre: one hundred twenty five millilitres an hour,"
            " one hundred twenty five drops a minute.",
            "One thousand millilitres, sixty, six zero drops a millilitre, over six hours:"
            " one hundred sixty six point seven millilitres an hour, one hundred sixty seven drops a minute.",
            "Five hundred millilitres, sixty, six zero drops a millilitre, over six hours:"
            " eighty three point three millilitres an hour, eighty three drops a minute.",
        ),
    ),
    (
        "how long it lasts, and when it is done",
        ("how long will five hundred millilitres last at seventy five an hour", "when will it finish"),
        (
            "Five hundred millilitres, at seventy five millilitres an hour:"
            " six hours forty, four zero minutes.",
            "Started now it ends at fourteen forty, one four four zero, in six hours forty minutes.",
        ),
    ),
    (
        "a number alone takes the place of the rate; the same in drops; when it ends",
        (
            "how long will 500 last at 75 an hour",
            "make that ninety",
            "and in drops",
            "twenty",
            "when will 500 mL at 100 mL/h finish",
        ),
        (
            "Five hundred millilitres, at seventy five millilitres an hour:"
            " six hours forty, four zero minutes.",
            "Five hundred millilitres, at ninety, nine zero millilitres an hour:"
            " five hours thirty three minutes.",
            "How many drops a millilitre has the set?",
            "Five hundred millilitres, at ninety, nine zero millilitres an hour, twenty drops a millilitre:"
            " five hours thirty three minutes, thirty, three zero drops a minute. One drop every two seconds,"
            " seven drops or eight drops in fifteen, one five seconds.",
            "Five hundred millilitres, at one hundred millilitres an hour: five hours."
            " Started now it ends at thirteen hundred, in five hours.",
        ),
    ),
    (
        "a number whose unit is not known is not taken",
        ("maintenance by the hour", "eighty", "eighty kilos", "make that ninety"),
        (
            "What weight?",
            "Say that number with its unit.",
            "By the hour, eighty, eight zero kilograms: one hundred twenty millilitres an hour."
            " 120 millilitres an hour is above what is usual, 100 millilitres an hour"
            " (a page on maintenance fluid, title not known).",
            "Say that number with its unit.",
        ),
    ),
    (
        "what ran in since a burn is asked for, and deducted; what is unusual is said, however long",
        ("parkland forty percent eighty kilos two hours ago", "nothing", "and already given two litres"),
        (
            "How much was given since the burn?",
            "Eighty, eight zero kilograms, forty, four zero percent, Parkland, burnt two hours ago,"
            " zero millilitres given: twelve thousand eight hundred millilitres in twenty four hours,"
            " one thousand sixty six point seven millilitres an hour until eight hours after the burn,"
            " four hundred millilitres an hour from then on until twenty four hours."
            " 1066.7 millilitres an hour is above what is usual, 1000 millilitres an hour (local policy).",
            "Eighty, eight zero kilograms, forty, four zero percent, Parkland, burnt two hours ago,"
            " two thousand millilitres given: twelve thousand eight hundred millilitres in twenty four hours,"
            " seven hundred thirty three point three millilitres an hour until eight hours after the burn,"
            " four hundred millilitres an hour from then on until twenty four hours.",
        ),
    ),
    (
        "a number in doubt is asked alone, and then digit by digit",
        (
            "catch up 400 left and 19 minutes to go | catch up 400 left and 90 minutes to go",
            "ninety minutes | nineteen minutes",
            "nine zero minutes",
        ),
        (
            "How much time is left?",
            "That could be two things. Say it again, numbers digit by digit.",
            "Four hundred millilitres left, one hour thirty, three zero minutes to go:"
            " two hundred sixty six point seven millilitres an hour.",
        ),
    ),
    (
        "keep open is no rate",
        ("keep the vein open",),
        ("Keep open is not a rate. Ask for a number, and say how many millilitres an hour.",),
    ),
    (
        "what is missing is asked for, one thing after the other",
        ("how many drops is one litre", "over eight hours", "fifteen"),
        (
            "Over what time, or at what rate?",
            "How many drops a millilitre has the set?",
            f"{LITRE}, fifteen, one five drops a millilitre: one hundred twenty five millilitres an hour,"
            " thirty one drops a minute.",
        ),
    ),
    (
        "a weight is asked for, and told anew",
        (
            "five micrograms per kilo per minute, eight hundred milligrams in five hundred",
            "seventy kilos",
            "at eighty kilos",
        ),
        (
            "What weight?",
            "Five micrograms a kilogram a minute, eight hundred milligrams, in five hundred millilitres,"
            " seventy, seven zero kilograms: thirteen point one, one three point one millilitres an hour.",
            "Five micrograms a kilogram a minute, eight hundred milligrams, in five hundred millilitres,"
            " eighty, eight zero kilograms: fifteen, one five millilitres an hour.",
        ),
    ),
    (
        "what is disputed is asked, never chosen",
        ("maintenance for 22 kilos", "wrong", "burn forty percent at eighty kilos", "parkland", "just now"),
        (
            "By the hour, or by the day? They do not give the same.",
            f"Never mind. {AGAIN}",
            "Parkland, rule of ten, U S army, American burn, or college two, three or four?",
            "How long ago was the burn?",
            "Eighty, eight zero kilograms, forty, four zero percent, Parkland, burnt a moment ago:"
            " twelve thousand eight hundred millilitres in twenty four hours,"
            " eight hundred millilitres an hour until eight hours after the burn,"
            " four hundred millilitres an hour from then on until twenty four hours.",
        ),
    ),
    (
        "what is not told in time is let be, and the step comes again",
        ("how many drops is one litre over eight hours", "+31", "fifteen"),
        (
            "How many drops a millilitre has the set?",
            AGAIN,
            "No step waits for that now. To ask, begin with: what rate is.",
        ),
    ),
    (
        "catching up",
        ("catch up: six hundred left and three hours to go", "on a fifteen set"),
        (
            "Six hundred millilitres left, three hours to go: two hundred millilitres an hour.",
            "Six hundred millilitres left, three hours to go, fifteen, one five drops a millilitre:"
            " two hundred millilitres an hour, fifty, five zero drops a minute.",
        ),
    ),
    (
        "bags a day, and from drop to drop",
        (
            "how many bags a day is one litre over eight hours",
            "how many seconds per drop at thirty drops a minute",
        ),
        (
            f"{LITRE}: three bags a day.",
            "Thirty, three zero drops a minute: two seconds.",
        ),
    ),
    (
        "what must not drip is refused with the reason, and so is what is impossible",
        (
            "heparin five hundred units an hour, twenty five thousand units in 250, on a sixty set",
            "one litre over one minute on a fifteen set",
            "deficit of 25 percent for 22 kilos over 48 hours",
        ),
        (
            "Heparin is never computed as a drip here. Use a pump and a second checker.",
            "60000 millilitres an hour is above the limit of 17142.9 millilitres an hour"
            " (most: emergency department handbook, IV cannula page, South Australia; least: local policy).",
            "25 % is above the limit of 20 % (local policy).",
        ),
    ),
    (
        "of a question that could be two, the part in doubt is asked for, and nothing else",
        (
            "how fast is one litre over six hours | how fast is one litre over sixteen hours",
            "over six hours",
            "hourly maintenance for 15 kilos | hourly maintenance for 50 kilos",
            "fifteen kilos",
        ),
        (
            "Over what time, or at what rate?",
            "One thousand millilitres, over six hours:"
            " one hundred sixty six point seven millilitres an hour.",
            "What weight?",
            "By the hour, fifteen, one five kilograms: fifty, five zero millilitres an hour."
            " 4-2-1 by the hour and 100-50-20 by the day do not give the same."
            " In children isotonic crystalloid (NICE NG29, from a summary).",
        ),
    ),
    (
        "a question that could be two in more than one part is asked again as a whole",
        ("how fast is one litre over six hours | how fast is two litres over sixteen hours",),
        ("That could be two things. Say it again, numbers digit by digit.",),
    ),
    (
        "two values of one quantity are not taken",
        ("how fast is one litre five hundred mils over six hours",),
        ("I heard two values of the volume. Ask again with one.",),
    ),
)


@pytest.mark.parametrize(("name", "script", "expected"), DIALOGUES, ids=[row[0] for row in DIALOGUES])
def test_dialogue(name: str, script: tuple[str, ...], expected: tuple[str, ...]) -> None:
    """Who asks this hears that, and no step is closed by it."""
    del name
    talk = asked(*script)
    assert expected == talk.said
    assert talk.session.marks == told(*ORDER).session.marks


def test_a_question_leaves_a_read_back_as_it_is() -> None:
    """In a read-back it can be asked, and "correct" still means the value, for as long as it would."""
    talk = asked("nine drops in fifteen seconds", "correct", after=ORDER[:4])
    assert talk.session.value("order_volume") == "1000"
    lapsed = asked("how many drops is one litre over six hours", "+31", after=ORDER[:4])
    assert "Not confirmed. Nothing was changed." in " ".join(lapsed.said)
    assert lapsed.session.value("order_volume") == ""


def test_a_volume_that_answers_a_step_is_no_question() -> None:
    """The step takes it, though a question was asked just before."""
    talk = asked("how long will 500 mils last at 75 an hour", "one litre", after=ORDER[:3])
    assert talk.last == "One thousand, one zero zero zero millilitres. Correct?"
    assert len(answers(talk)) == 1


def test_nothing_is_asked_while_a_sharp_is_open() -> None:
    """Then only answers and emergencies are heard."""
    talk = asked(
        "how many drops is one litre over six hours on a ten set", after=(*TO_NEEDLE, "sharp scratch")
    )
    assert answers(talk) == []
    assert talk.session.mode is Mode.WALKING


def test_the_set_of_the_plan_is_meant_unless_another_is_named() -> None:
    """Drops are counted on the set that was confirmed; before there is one, it is asked for."""
    planned = asked(
        "how many drops is one litre over six hours", "nine drops in fifteen seconds", after=TO_PLAN
    )
    assert answers(planned)[0]["drop rate"] == Fraction(500, 9)
    assert answers(planned)[1]["rate"] == Fraction(108)
    assert "twenty drops a millilitre" in planned.last
    assert asked("how many drops is one litre over six hours").last.startswith("How many drops a millilitre")


def test_when_a_running_bag_ends() -> None:
    """By its rate: 1000 mL at 125 mL/h end after eight hours."""
    talk = asked("when will the infusion finish", after=(*TO_RUN, *RUN))
    (told_end,) = events(talk, e.FinishTold)
    assert (told_end.running, told_end.left_s) == (True, 8 * 3600)


def test_everything_said_about_a_question_can_be_said() -> None:
    """Cut off and gone on, the question is still there: the session is the fold of its record."""
    talk = asked("how long will 500 mils last at 75 an hour", "at a hundred an hour instead")
    assert talk.session.asked is not None
    assert talk.session.asked.question == "flow for time; volume=500 mL; rate=100 mL/h"
    assert answers(talk)[-1] == {"time": Fraction(300), "bags per day": Fraction(24, 5)}
