"""How a value of a step is spoken: "1000" of a volume is "one thousand millilitres". Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from handsfree.say.calendar import day_words, month_words
from handsfree.say.numbers import doubled, spoken
from handsfree.say.quantities import counted, duration, quantity
from handsfree.words import worded


def value_words(kind: str, value: str, say: Callable[[int | Fraction], str] = doubled) -> str:
    """A value as it is spoken: "1000" of volume is "one thousand millilitres"."""
    words = _VALUES.get(kind)
    return words(value, say) if words else value


def _gauge(value: str, say: Callable[[int | Fraction], str]) -> str:
    return worded("{gauges} gauge", gauges=worded(" or ").join(say(int(one)) for one in value.split("/")))


def _expiry(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    year, month, *day = (int(part) for part in value.split("-"))
    return day_words(date(year, month, day[0])) if day else month_words(year, month)


def _count(value: str, say: Callable[[int | Fraction], str]) -> str:
    drops, over_s = value.split("/")
    return worded("{drops} drops in {seconds} seconds", drops=say(int(drops)), seconds=spoken(int(over_s)))


def _fluid(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    return " ".join(
        spoken(Fraction(word)) if word[0].isdigit() else worded("percent") if word == "%" else word
        for word in value.split()
    )


def _minutes(value: str, say: Callable[[int | Fraction], str]) -> str:
    minutes = Fraction(value)
    if minutes % 60 == 0:
        return worded("over {time}", time=quantity(minutes / 60, "h", say))
    return worded("over {time}", time=duration(int(minutes * 60)))


def _allergies(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    if value == "none":
        return worded("no allergies")
    return worded("allergic to {what}", what=value.replace(",", worded(" and")))


def _limb(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    return worded("no arm to avoid") if value == "none" else worded("avoid the {limb}", limb=value)


def _in(unit: str) -> Callable[[str, Callable[[int | Fraction], str]], str]:
    return lambda value, say: quantity(Fraction(value), unit, say)


_VALUES: Mapping[str, Callable[[str, Callable[[int | Fraction], str]], str]] = MappingProxyType(
    {
        "volume": _in("mL"),
        "rate": lambda value, say: worded("at {rate}", rate=quantity(Fraction(value), "mL/h", say)),
        "drop_factor": _in("gtt/mL"),
        "infusion_time": _minutes,
        "fluid": _fluid,
        "bag_fluid": _fluid,
        "gauge": _gauge,
        "expiry": _expiry,
        "count": _count,
        "identity": lambda value, say: worded("tag taken") if value.startswith("tag") else value,
        "allergies": _allergies,
        "limb": _limb,
        "attempts": lambda value, say: counted(int(value), worded("attempt"), worded("attempts")),
    }
)


def capital(text: str) -> str:
    """The text with its first letter as a sentence begins."""
    return text[:1].upper() + text[1:]
