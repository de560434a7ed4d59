"""Numbers as they are said: words that a person and a recogniser tell apart.

No hyphens and no "and": a recogniser has neither, and "and" can be taken for the start of another number.
"""

from __future__ import annotations

from fractions import Fraction

Number = int | Fraction

_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    *("ten", "eleven", "twelve", "thirteen", "fourteen"),
    *("fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_SCALES = ((10**6, "million"), (1000, "thousand"), (100, "hundred"))
_LIMIT = 10**9

_TEENS_LIKE_TENS = frozenset(_ONES[13:])
_TENS_LIKE_TEENS = frozenset(_TENS[1:])


def spoken(value: Number) -> str:
    """Say a number once: 1000 "one thousand", 1.4 "one point four", 0.9 "zero point nine".

    Zero before the point, no zeros at the end (S76, ISMP list of error-prone dose designations).
    Raises ValueError below zero, from a thousand million, and where the decimals don't end: round first.
    """
    whole, decimals = _split(value)
    return " ".join([*_whole_words(whole), *_decimal_words(decimals)])


def digits(value: Number) -> str:
    """Say a number digit by digit: 15 "one five", 2.5 "two point five". Raises as `spoken`."""
    whole, decimals = _split(value)
    return " ".join([*_digit_words(str(whole)), *_decimal_words(decimals)])


def twice(value: Number) -> str:
    """Say a number the two ways of a read-back: 15 "fifteen, one five"; once where both are the same.

    Source: S82, hospital verbal-order policies with digit-by-digit speech ("fifty, five zero").
    """
    once, by_digits = spoken(value), digits(value)
    return once if once == by_digits else f"{once}, {by_digits}"


def mistakable(value: Number) -> bool:
    """Tell whether a teen in the number sounds like a ten, or a ten like a teen: 15 and 50, not 51.

    Source: S79, Pennsylvania Patient Safety Advisory, June 2006: 50 was heard where 15 was said.
    """
    words = spoken(value).split()
    pairs = zip(words, [*words[1:], ""], strict=True)
    return any(
        word in _TEENS_LIKE_TENS or (word in _TENS_LIKE_TEENS and after not in _ONES[1:10])
        for word, after in pairs
    )


def doubled(value: Number) -> str:
    """Say a number outside a read-back: the two ways where it is mistakable, else once."""
    return twice(value) if mistakable(value) else spoken(value)


def _split(value: Number) -> tuple[int, str]:
    """Whole part, and the decimals as digits without zeros at the end."""
    exact = Fraction(value)
    if not 0 <= exact < _LIMIT:
        raise ValueError(f"{value} cannot be said: it is not between 0 and {_LIMIT}")
    places = _decimal_places(exact.denominator)
    whole, rest = divmod(exact, 1)
    return whole, f"{int(rest * 10**places):0{places}d}" if places else ""


def _decimal_places(denominator: int) -> int:
    """How many decimals a fraction in lowest terms has."""
    twos = fives = 0
    while denominator % 2 == 0:
        denominator, twos = denominator // 2, twos + 1
    while denominator % 5 == 0:
        denominator, fives = denominator // 5, fives + 1
    if denominator != 1:
        raise ValueError("a number whose decimals don't end cannot be said: round it first")
    return max(twos, fives)


def _whole_words(whole: int) -> list[str]:
    for scale, name in _SCALES:
        if whole >= scale:
            above, below = divmod(whole, scale)
            return [*_whole_words(above), name, *(_whole_words(below) if below else [])]
    if whole < 20:
        return [_ONES[whole]]
    ten, one = divmod(whole, 10)
    return [_TENS[ten - 2], *([_ONES[one]] if one else [])]


def _decimal_words(decimals: str) -> list[str]:
    return ["point", *_digit_words(decimals)] if decimals else []


def _digit_words(figures: str) -> list[str]:
    return [_ONES[int(figure)] for figure in figures]
