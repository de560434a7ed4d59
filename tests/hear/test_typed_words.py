"""Typed lines become the words that a recogniser would have heard."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.hear.typed_words import number_words, typed_words

LINES = [
    ("Next.", "next"),
    ('  "Right   forearm", please!', "right forearm please"),
    ("1000 over 8", "one thousand over eight"),
    ("1,000", "one thousand"),
    ("10 000", "ten zero"),
    ("125", "one hundred and twenty five"),
    ("2031", "two thousand and thirty one"),
    ("0.9 percent", "zero point nine percent"),
    (".45", "zero point four five"),
    ("20g", "twenty g"),
    ("10:30", "ten thirty"),
    ("1 L over 8h", "one litre over eight hour"),
    ("5 mcg/kg/min", "five mcg per kg per minute"),
    ("31 gtt/min, 0.9 %", "thirty one drops per minute zero point nine percent"),
    ("on/off 12/3", "on off twelve three"),
    ("9999999999", "nine nine nine nine nine nine nine nine nine nine"),
    ("it's / it’s dry", "it's it's dry"),
    ("caf\u00e9 \ufffd ok", "caf\u00e9 ok"),
    ("", ""),
    (" ... ?! ", ""),
    ("\u0663", "three"),
]


@pytest.mark.parametrize(("line", "words"), LINES)
def test_typed_words(line: str, words: str) -> None:
    """Lower case, no punctuation, numbers as they are said."""
    assert tuple(words.split()) == typed_words(line)


NUMBERS = [
    (0, "zero"),
    (19, "nineteen"),
    (20, "twenty"),
    (100, "one hundred"),
    (101, "one hundred and one"),
    (999, "nine hundred and ninety nine"),
    (1_001, "one thousand and one"),
    (1_200, "one thousand two hundred"),
    (25_000, "twenty five thousand"),
    (999_000_001, "nine hundred and ninety nine million and one"),
]


@pytest.mark.parametrize(("number", "words"), NUMBERS)
def test_number_words(number: int, words: str) -> None:
    """Whole numbers are said as in British English."""
    assert words.split() == number_words(number)


@given(st.integers(0, 999_999_999), st.integers(0, 999_999_999))
def test_two_numbers_never_sound_the_same(one: int, other: int) -> None:
    """Different numbers have different words."""
    assert (one == other) == (number_words(one) == number_words(other))


@given(st.text())
def test_any_line_is_taken(line: str) -> None:
    """No line breaks the reader, and no word has a space or a capital in it."""
    assert all(word and word == "".join(word.lower().split()) for word in typed_words(line))
