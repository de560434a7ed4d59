"""Dialogues about speech that could be two things: it is asked which, and neither counts until then."""

from __future__ import annotations

import pytest

from handsfree.care.choices import chosen, numbers
from handsfree.care.commands import Answer, Say
from handsfree.say.wording_choices import which
from tests.dialogues import EQUIPMENT, FLUID, ORDER, TO_FLUID, told

TO_SET = (*ORDER, *EQUIPMENT[:3])
ASKED = "Did you say fifteen or fifty? One five, or five zero."
SET = "Read the drops per millilitre from the pack of the drip set."
FIFTEEN = "Fifteen, one five drops a millilitre. Correct?"
TAKEN = (
    "Taken. The drip rate is: Thirty one, three one drops a minute. One drop every one point nine seconds."
    " Seven or eight drops in fifteen seconds. Tourniquet, dressing, tape, label and lock ready?"
)
FIFTY = "Fifty, five zero drops a millilitre. Correct?"

CHOICES = "You can say: one, first, second, wrong, repeat, stop."
DATES = "Did you say March twenty thirty three, or May twenty thirty three?"
MAY = "May twenty thirty three. Is it clear, without particles?"
TO_DATE = (*TO_FLUID, FLUID[0])
HUNDREDS = "Did you say one hundred fifteen or one hundred fifty? One one five, or one five zero."
HANDS = "Clean your hands, then gloves and eye protection."

DIALOGUES: tuple[tuple[str, tuple[str, ...], tuple[str, ...], tuple[str, ...]], ...] = (
    ("by its number", TO_SET, ("fifteen | fifty", "fifteen"), (ASKED, FIFTEEN)),
    ("by its digits", TO_SET, ("fifteen | fifty", "five zero"), (ASKED, FIFTY)),
    ("by its unit", TO_SET, ("fifteen | fifty", "fifteen drops a mil"), (ASKED, FIFTEEN)),
    ("by its place", TO_SET, ("fifteen | fifty", "the second"), (ASKED, FIFTY)),
    ("the first", TO_SET, ("fifteen set | fifty set", "the first one"), (ASKED, FIFTEEN)),
    ("neither", TO_SET, ("fifteen | fifty", "neither", "fifteen"), (ASKED, SET, FIFTEEN)),
    ("no", TO_SET, ("fifteen | fifty", "no"), (ASKED, SET)),
    ("it lapses by itself", TO_SET, ("fifteen | fifty", "+16"), (ASKED, SET)),
    ("correct chooses nothing", TO_SET, ("fifteen | fifty", "correct", "yes"), (ASKED, CHOICES, SET)),
    ("nor does another number", TO_SET, ("fifteen | fifty", "ten", "+16"), (ASKED, "Say again?", SET)),
    ("asked again", TO_SET, ("fifteen | fifty", "repeat"), (ASKED, ASKED)),
    (
        "hundreds",
        ORDER[:3],
        ("one fifteen mils | one fifty mils", "one five zero"),
        (HUNDREDS, "One hundred fifty, one five zero millilitres. Correct?"),
    ),
    (
        "litres",
        ORDER[:3],
        ("two litres | three litres", "three litres"),
        (
            "Did you say two thousand or three thousand? Two zero zero zero, or three zero zero zero.",
            "Three thousand, three zero zero zero millilitres. Correct?",
        ),
    ),
    (
        "hours",
        ORDER[:5],
        ("over thirteen hours | over thirty hours", "thirteen hours"),
        (
            "Did you say thirteen or thirty? One three, or three zero.",
            "Over thirteen, one three hours. Correct?",
        ),
    ),
    (
        "in the place of a number read back",
        (*TO_SET, "ten set"),
        ("fifteen | fifty", "correct", "the first", "correct"),
        (ASKED, CHOICES, FIFTEEN, TAKEN),
    ),
    ("two dates", TO_DATE, ("march 2033 | may 2033", "the second"), (DATES, MAY)),
    ("two dates, and one of them again", TO_DATE, ("march 2033 | may 2033", "may 2033"), (DATES, MAY)),
    (
        "two numbers in one breath",
        ORDER,
        ("orange twenty one set", "orange"),
        ("Two numbers in a row. Say them one at a time.", f"Fourteen, one four gauge. {HANDS}"),
    ),
    ("in doubt it is no", ORDER[:2], ("correct | not correct",), ("Taken back. Which fluid is ordered?",)),
    (
        "what confirms is not offered for choice",
        ORDER[:2],
        ("correct | repeat",),
        ("Say correct, or wrong.",),
    ),
    ("a tag is not said aloud", (), ("tag twelve | tag twenty",), ("Say again?",)),
    ("not for ever", TO_SET, ("fifteen | fifty",) * 9, (ASKED, CHOICES, SET)),
)
"""What is shown, the lines before, further lines ("a | b" could be either), and what is said to those."""


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == told(*script, after=after).said


def time(minutes: int) -> Say:
    return Say("just_infusion_time", "", reason=str(minutes))


def counted(drops: str) -> Say:
    return Say("report", "", (Answer("count", drops),))


@pytest.mark.parametrize(("teen", "ten"), [(n, (n - 10) * 10) for n in range(13, 20)])
def test_teens_and_tens(teen: int, ten: int) -> None:
    """Whichever two are too close, both are said in two ways, and each number chooses its own."""
    both = tuple(Say("just_volume", "", reason=str(number)) for number in (teen, ten))
    first, second = both
    assert which(both).count(" or ") == 2
    assert (first, second, None) == (chosen(both, teen), chosen(both, ten), chosen(both, ten + 1))


@pytest.mark.parametrize(
    ("candidates", "number", "one"),
    [
        ((time(15), time(50)), 15, 0),
        ((time(15 * 60), time(50 * 60)), 50, 1),
        ((time(15), time(15 * 60)), 15, None),
        ((counted("15/60"), counted("50/60")), 50, 1),
        ((Say("next", "next"), Say("skip", "skip")), 1, None),
    ],
)
def test_number_in_its_unit(candidates: tuple[Say, ...], number: int, one: int | None) -> None:
    """A number chooses in whatever unit it is said, and nothing where it fits both."""
    assert chosen(candidates, number) == (None if one is None else candidates[one])


def test_minutes_and_hours_are_named() -> None:
    """Where one was minutes and the other hours, the numbers alone would not do."""
    assert (
        which((time(15), time(50 * 60)))
        == "Did you say over fifteen minutes, or over fifty, five zero hours?"
    )


def test_commands_are_named() -> None:
    """Other sentences are said as they are."""
    assert numbers((Say("next", "next"), Say("skip", "skip"))) is None
    assert which((Say("next", "next"), Say("skip", "skip"))) == "Did you say next, or skip?"
