"""Dates and times of day as they are said."""

from __future__ import annotations

from datetime import date, time

from handsfree.say.numbers import digits, mistakable, spoken

_MONTHS = tuple(
    "January February March April May June July August September October November December".split()  # noqa: SIM905
)
_ORDINAL_ENDINGS = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
    "twenty": "twentieth",
    "thirty": "thirtieth",
}


def day_words(day: date) -> str:
    """Say a date: "the thirty first of March twenty twenty eight"."""
    return f"the {ordinal(day.day)} of {month_words(day.year, day.month)}"


def month_words(year: int, month: int) -> str:
    """Say a month: "March twenty twenty eight"."""
    return f"{_MONTHS[month - 1]} {year_words(year)}"


def year_words(year: int) -> str:
    """Say a year: 2028 "twenty twenty eight", 2005 "two thousand five", 1900 "nineteen hundred"."""
    century, rest = divmod(year, 100)
    if century % 10 == 0 and rest < 10:
        return spoken(year)
    if rest == 0:
        return f"{spoken(century)} hundred"
    return f"{spoken(century)} {'zero ' if rest < 10 else ''}{spoken(rest)}"


def ordinal(number: int) -> str:
    """Say a number in a row: 1 "first", 31 "thirty first"."""
    *before, last = spoken(number).split()
    return " ".join([*before, _ORDINAL_ENDINGS.get(last, f"{last}th")])


def clock_words(at: time) -> str:
    """Say a time of day on the 24-hour clock, to the minute: "zero eight forty nine", "fourteen hundred".

    Minutes that could be taken for others are said the two ways: "zero eight fifteen, zero eight one five".
    """
    hour = f"{'zero ' if at.hour < 10 else ''}{spoken(at.hour)}"
    if at.minute == 0:
        return f"{hour} hundred"
    minute = f"{'zero ' if at.minute < 10 else ''}{spoken(at.minute)}"
    once = f"{hour} {minute}"
    if not mistakable(at.minute):
        return once
    hour_digits = " ".join(digits(int(figure)) for figure in f"{at.hour:02d}")
    return f"{once}, {hour_digits} {digits(at.minute)}"
