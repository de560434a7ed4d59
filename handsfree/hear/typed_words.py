"""A typed line as the words that a recogniser would have heard."""

from __future__ import annotations

import re

# fmt: off
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
# fmt: on
_THOUSANDS = ((1_000_000, "million"), (1_000, "thousand"), (100, "hundred"))

_LARGEST = 999_999_999

_WRITTEN = {
    "h": "hour", "hr": "hour", "hrs": "hours", "min": "minute", "day": "day", "l": "litre", "mls": "mils",
    "gtt": "drops", "gtts": "drops", "lb": "pounds", "lbs": "pounds", "%": "percent",
}  # fmt: skip
"""Units as they are written behind a number or a stroke, and said."""

_COUNTED = (*_WRITTEN, "ml", "mcg", "mg", "g", "ng", "kg", "unit", "units", "mmol", "meq")
"""Behind these a stroke is "per"."""

_WORD = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+|[^\W\d_]+(?:['’][^\W\d_]+)*|[%/]")
"""A number (with or without commas and decimals), a word that may hold an apostrophe, or a sign of a unit."""


def typed_words(line: str) -> tuple[str, ...]:
    """Lower-case words of a line without its punctuation; numbers as they are said."""
    pieces = _WORD.findall(line.lower())
    return tuple(
        word for before, piece in zip(("", *pieces), pieces, strict=False) for word in _said(piece, before)
    )


def _said(piece: str, before: str) -> list[str]:
    """The words of a piece; a stroke is "per" behind a unit, and nothing elsewhere."""
    if piece == "/":
        return ["per"] if before in _COUNTED else []
    if piece in _WRITTEN and (before[-1:].isdecimal() or before == "/"):
        return [_WRITTEN[piece]]
    if piece == "%":
        return []
    if not piece[0].isdecimal() and piece[0] != ".":
        return [piece.replace("’", "'")]
    whole, point, decimals = piece.replace(",", "").partition(".")
    words = number_words(int(whole or "0")) if int(whole or "0") <= _LARGEST else _digits(whole)
    return words + (["point", *_digits(decimals)] if point else [])


def _digits(digits: str) -> list[str]:
    return [_ONES[int(digit)] for digit in digits]


def number_words(number: int) -> list[str]:
    """Say a whole number from 0 to 999,999,999: 125 is "one hundred and twenty five"."""
    if number < 20:
        return [_ONES[number]]
    if number < 100:
        tens, ones = divmod(number, 10)
        return [_TENS[tens]] + ([_ONES[ones]] if ones else [])
    size, name = next(step for step in _THOUSANDS if number >= step[0])
    many, rest = divmod(number, size)
    joined = ["and"] if 0 < rest < 100 else []
    return [*number_words(many), name, *joined, *(number_words(rest) if rest else [])]
