"""Quantities with their units in full, one or many: "one millilitre an hour", "thirty drops a minute".

Units are said in full, never shortened (S82, hospital verbal-order policies with digit-by-digit speech).
"""

from __future__ import annotations

from collections.abc import Callable

from handsfree.say.numbers import Number, spoken

_COUNTED = {
    "mL": ("millilitre", "millilitres"),
    "L": ("litre", "litres"),
    "gtt": ("drop", "drops"),
    "h": ("hour", "hours"),
    "min": ("minute", "minutes"),
    "s": ("second", "seconds"),
    "day": ("day", "days"),
    "ng": ("nanogram", "nanograms"),
    "mcg": ("microgram", "micrograms"),
    "mg": ("milligram", "milligrams"),
    "g": ("gram", "grams"),
    "kg": ("kilogram", "kilograms"),
    "lb": ("pound", "pounds"),
    "units": ("unit", "units"),
    "milliunits": ("milli unit", "milli units"),
    "mEq": ("milli equivalent", "milli equivalents"),
    "mmol": ("milli mole", "milli moles"),
    "%": ("percent", "percent"),
    "bags": ("bag", "bags"),
}
"""Symbol as the trade writes it: one of it, many of it; the words are such as a recogniser knows."""

_VOWELS = "aeiou"
_SILENT_H = "hour"


def quantity(value: Number, unit: str, say: Callable[[Number], str] = spoken) -> str:
    """Say a number with its unit: 125 and "mL/h" give "one hundred twenty five millilitres an hour".

    say: how the number is said (`spoken`, `twice`, `doubled`). Raises ValueError for an unknown unit.
    """
    return f"{say(value)} {unit_words(unit, many=value != 1)}"


def unit_words(unit: str, *, many: bool = True) -> str:
    """Say a unit: "gtt/mL" is "drops a millilitre". Raises ValueError where it is unknown."""
    symbols = unit.split("/")
    unknown = [symbol for symbol in symbols if symbol not in _COUNTED]
    if unknown:
        raise ValueError(f"no words for the unit {unknown[0]!r} in {unit!r}")
    counted, *each = (_COUNTED[symbol] for symbol in symbols)
    return " ".join([counted[many], *(f"{_article(one)} {one}" for one, _ in each)])


def duration(seconds: int) -> str:
    """Say a length of time: 28800 "eight hours", 24000 "six hours forty minutes", 90 "ninety seconds".

    Seconds alone below two minutes, but for a whole minute. Raises ValueError below zero.
    """
    if seconds < 120 and seconds != 60:
        return quantity(seconds, "s")
    minutes, left_s = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((hours, "h"), (minutes, "min"), (left_s, "s"))
    return " ".join(quantity(count, unit) for count, unit in parts if count)


def counted(number: int, one: str, many: str) -> str:
    """Say how many there are: 1 "one mark", 3 "three marks"."""
    return f"{spoken(number)} {one if number == 1 else many}"


def _article(word: str) -> str:
    return "an" if word[0] in _VOWELS or word == _SILENT_H else "a"
