"""Dates and times of day as they are said."""

from __future__ import annotations

from datetime import date, time

import pytest
from num2words import num2words

from handsfree.say.calendar import clock_words, day_words, month_words, ordinal, year_words

YEARS = [
    (2031, "twenty thirty one"),
    (2020, "twenty twenty"),
    (2010, "twenty ten"),
    (2005, "two thousand five"),
    (2000, "two thousand"),
    (1900, "nineteen hundred"),
    (1905, "nineteen zero five"),
]

CLOCK = [
    (time(8, 49), "zero eight forty nine"),
    (time(14, 0), "fourteen hundred"),
    (time(0, 0), "zero zero hundred"),
    (time(0, 5), "zero zero zero five"),
    (time(23, 59, 59), "twenty three fifty nine"),
    (time(8, 15), "zero eight fifteen, zero eight one five"),
    (time(8, 50), "zero eight fifty, zero eight five zero"),
]


@pytest.mark.parametrize(("year", "said"), YEARS)
def test_year(year: int, said: str) -> None:
    """A year is said in two halves, as people do."""
    assert said == year_words(year)


def test_day_and_month() -> None:
    """A day comes before its month, a month before its year."""
    assert day_words(date(2028, 3, 31)) == "the thirty first of March twenty twenty eight"
    assert month_words(2027, 12) == "December twenty twenty seven"


def test_ordinals() -> None:
    """Another program's words for the days of a month are ours, but for hyphens."""
    for day in range(1, 32):
        assert num2words(day, to="ordinal").replace("-", " ") == ordinal(day)


@pytest.mark.parametrize(("at", "said"), CLOCK)
def test_clock(at: time, said: str) -> None:
    """A time of day runs to 24 hours; minutes that sound like others are said the two ways."""
    assert said == clock_words(at)
