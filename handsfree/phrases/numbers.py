"""The value of numbers, years, months and days as `grammars/numbers.jsgf` lets people say them.

The kinds of word, one letter each, spell the form of a number; one table tells the forms apart.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from fractions import Fraction

_UNITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
_TEENS = [
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_MONTHS = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]
_ORDINALS = [
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
    "twentieth",
]
_LATE_DAYS = [*(f"twenty {ordinal}" for ordinal in _ORDINALS[:9]), "thirtieth", "thirty first"]

_DAYS = {said: number for number, said in enumerate([*_ORDINALS, *_LATE_DAYS], 1)}
_MONTH_NUMBERS = {said: number for number, said in enumerate(_MONTHS, 1)}

_VALUES: Mapping[str, int] = {
    **{word: value for value, word in enumerate(_UNITS, 1)},
    "ten": 10,
    **{word: value for value, word in enumerate(_TEENS, 11)},
    **{word: 10 * value for value, word in enumerate(_TENS, 2)},
    **dict.fromkeys(("zero", "oh", "nought", "and"), 0),
    "a": 1,
}

_KINDS: Mapping[str, str] = {
    **dict.fromkeys(("zero", "oh", "nought"), "z"),
    **dict.fromkeys(_UNITS, "u"),
    "ten": "x",
    **dict.fromkeys(_TEENS, "t"),
    **dict.fromkeys(_TENS, "y"),
    "hundred": "H",
    "thousand": "K",
    "a": "a",
    "and": "&",
}

_COUNTED = frozenset(word for word, kind in _KINDS.items() if kind not in "a&") | {"point"}
_ROUND = frozenset(("hundred", "thousand"))

_TWO = "(?:x|t|yu?)"
_SMALL = re.compile(f"u|{_TWO}")
_DIGITS = re.compile("z|u[zu]{0,3}")
_FORMS = tuple(
    re.compile(form)
    for form in (
        f"(?P<rest>{_TWO})",
        f"(?P<hundreds>u)(?P<rest>{_TWO})",
        f"(?P<hundreds>{_TWO})(?P<rest>{_TWO}|zu)",
        f"(?P<hundreds>a|u|t|yu)H(?P<rest>&?(?:{_TWO}|u))?",
        f"(?P<thousands>a|u)K(?:(?P<hundreds>u)H)?(?P<rest>&?(?:{_TWO}|u))?",
    )
)
_WORTH = {"thousands": 1000, "hundreds": 100, "rest": 1}


def goes_on(last: str, follow: AbstractSet[str]) -> bool:
    """Whether a number that ends with the word `last` can go on with one of `follow`."""
    return (last in _COUNTED and not follow.isdisjoint(_COUNTED)) or (last in _ROUND and "and" in follow)


def holds_number(words: Iterable[str]) -> bool:
    """Whether a word of a number is among them."""
    return not _COUNTED.isdisjoint(words)


def number(words: Sequence[str]) -> Fraction:
    """The value of `<whole>` or `<decimal>`. Raises ValueError for what is neither."""
    if list(words) == ["half"]:
        return Fraction(1, 2)
    if list(words[-3:]) == ["and", "a", "half"] and _SMALL.fullmatch(_form(words[:-3])):
        return whole(words[:-3]) + Fraction(1, 2)
    if "point" in words:
        point = words.index("point")
        return whole(words[:point]) + _decimals(words[point + 1 :])
    return Fraction(whole(words))


def whole(words: Sequence[str]) -> int:
    """The value of `<whole>`, 0 to 9999. Raises ValueError for anything else."""
    form = _form(words)
    if _DIGITS.fullmatch(form):
        return int("".join(str(_VALUES[word]) for word in words))
    for pattern in _FORMS:
        if found := pattern.fullmatch(form):
            return sum(
                _WORTH[part] * sum(_VALUES[word] for word in words[slice(*found.span(part))])
                for part, text in found.groupdict().items()
                if text
            )
    raise _not_a("number", words)


def year(words: Sequence[str]) -> int:
    """The value of `<year>`, 2000 to 2099. Raises ValueError for anything else."""
    value = whole(words)
    if value not in range(2000, 2100):
        raise _not_a("year", words)
    return value


def month(words: Sequence[str]) -> int:
    """The value of `<month>`, 1 to 12. Raises ValueError for anything else."""
    return _looked_up(_MONTH_NUMBERS, "month", words)


def day(words: Sequence[str]) -> int:
    """The value of `<day>`, 1 to 31. Raises ValueError for anything else."""
    return _looked_up(_DAYS, "day", words)


def _form(words: Sequence[str]) -> str:
    """The kinds of the words, one letter each."""
    return "".join(_KINDS.get(word, "?") for word in words)


def _decimals(words: Sequence[str]) -> Fraction:
    if not 1 <= len(words) <= 4 or set(_form(words)) - set("zu"):
        raise _not_a("number behind the point", words)
    return Fraction(int("".join(str(_VALUES[word]) for word in words)), 10 ** len(words))


def _looked_up(table: Mapping[str, int], what: str, words: Sequence[str]) -> int:
    said = " ".join(words)
    if said not in table:
        raise _not_a(what, words)
    return table[said]


def _not_a(what: str, words: Sequence[str]) -> ValueError:
    return ValueError(f"“{' '.join(words)}” is not a {what}")
