"""Published worked examples, asked in a session in words of the trade: the keyboard's numbers."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care import events as e
from tests.care.questions.asked import answers, asked, events
from tests.cli.test_published import NOT_AS_PRINTED, PUBLISHED

SPOKEN = (
    "how many drops is one thousand mils over eight hours on a twenty set",
    "one litre over ten hours fifteen drop set",
    "two litres over seven hundred and twenty minutes with a fifteen drop set",
    "one twenty five mils an hour twenty drops a mil",
    "fifteen hundred mils over twenty four hours on a twenty set",
    "how many drops a minute is five hundred millilitres over four hours with a ten set",
    "a litre over nine hours, fifteen drop set",
    "how long will five hundred millilitres last at seventy five an hour",
    "five micrograms per kilo per minute, 176 pounds, 800 milligrams in 500",
    "two and a half mikes per kilo per minute 85 kilos eight hundred milligrams in five hundred mils",
    "what rate is five micrograms a kilo a minute for 95 kilos from 200 milligrams in two fifty mils",
    "ten micrograms per minute fifty milligrams in two hundred and fifty mils",
    "zero point zero five milligrams per kilo per hour for forty kilos with 100 milligrams in 100",
    "dopamine ten micrograms per kilo per minute 85 kilos eight hundred milligrams in two fifty mils",
    "nought point one five micrograms per hour from twenty five micrograms in fifty mils",
    "heparin five hundred units an hour twenty five thousand units in two fifty",
    "what dose is thirty mils an hour of two milligrams in two fifty",
    "what dose is ten drops a minute sixty drop set of one hundred milligrams in 250",
    "what's the concentration of fifty thousand units in six hundred mils",
    "seventy units per kilo per hour for two hundred sixty nine pounds, fifty thousand units in 600 mils",
    "hourly maintenance for thirty kilos",
    "maintenance for twenty two kilos by the hour",
    "what's the daily maintenance for twenty two kilos",
    "maintenance at twenty two kilograms by the day",
    "deficit of five percent for twenty two kilos over forty eight hours",
    "what's the deficit five percent dehydrated twenty two kilos over forty eight hours",
    "burn fifty percent ninety kilos rule of ten just now",
    "rule of ten for thirty two percent at ninety kilos burnt just now",
    "draw up ten milligrams per kilo for one hundred ten pounds from one twenty five milligrams in five mils",
    "how much do i draw up for ten milligrams per kilo 110 pounds 125 milligrams per five mils",
    "what volume is ten milligrams per kilo at a hundred and ten pounds from 125 milligrams in five mils",
    "draw up sixty milligrams from twenty milligrams in two mils",
    "how much is half a milligram from a quarter of a milligram per mil",
    "draw up one milligram per kilo for 143 pounds from one milligram per mil",
    "draw up one milligram per kilo for two point two pounds from one milligram per mil",
    "how long will one litre take at two twenty five mils an hour",
    "how long does a litre run at seventy five an hour",
    "how long will four hundred mils last at forty drops a minute on a sixty set",
    "three mikes per kilo per minute at eighty six kilos 800 milligrams in five hundred mils",
    "five micrograms per kilogram per minute, 205 pounds, 200 milligrams in two hundred and fifty mils",
    "one and a half litres over twelve hours on a fifteen set",
    "twelve hundred and sixty units per hour from two hundred and fifty thousand units in 250 mils",
)
"""One for each row of the keyboard's table, in its order; sources and printed answers stand there."""


@pytest.mark.parametrize(
    ("row", "said"), [*zip((*PUBLISHED, *NOT_AS_PRINTED), SPOKEN, strict=True)], ids=SPOKEN
)
def test_the_answer_is_the_published_one(row: tuple[str, str, str], said: str) -> None:
    """The exact number of every published example, where somebody asks in passing."""
    source, _, number = row
    name, exact, _ = number.split()
    (found,) = answers(asked(said))

    assert Fraction(exact) == found[name.replace("_", " ")], source


def test_maintenance_and_deficit_together() -> None:
    """22 kg, 5 % over 48 h: 84.9 mL/h in all (IV fluid prescribing, quick reference, UK)."""
    found = answers(asked("hourly maintenance for 22 kilos", "deficit five percent 22 kilos over 48 hours"))

    assert Fraction(1019, 12) == sum(one["rate"] for one in found)


def test_an_end_is_not_cut() -> None:
    """1000 mL at 225 mL/h end after 4 h 26 min 40 s; 4 h 24 min was printed (student cards)."""
    talk = asked("how long will one litre last at 225 an hour", "when will it finish")

    assert [16_000] == [one.left_s for one in events(talk, e.FinishTold)]
    assert talk.last == "Started now it ends at twelve twenty six, in four hours twenty six minutes."
