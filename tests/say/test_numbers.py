"""Numbers as they are said."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from handsfree.say.numbers import digits, doubled, mistakable, spoken, twice

F = Fraction

ONCE = [
    (0, "zero"),
    (42, "forty two"),
    (100, "one hundred"),
    (125, "one hundred twenty five"),
    (1000, "one thousand"),
    (10_050, "ten thousand fifty"),
    (
        999_999_999,
        "nine hundred ninety nine million nine hundred ninety nine thousand nine hundred ninety nine",
    ),
    (F("0.4"), "zero point four"),  # S02, S76: zero before the point
    (F("3.0"), "three"),  # S02, S76: no zero at the end
    (F("1.05"), "one point zero five"),
    (F("31.25"), "thirty one point two five"),
]

REFUSED = [-1, F(-1, 2), 10**9, F(1, 3), F(1, 7)]

READ_BACK = [
    (15, "fifteen, one five"),  # S82, hospital verbal-order policies with digit-by-digit speech
    (50, "fifty, five zero"),  # S82
    (42, "forty two, four two"),
    (1000, "one thousand, one zero zero zero"),
    (F("2.5"), "two point five"),  # the two ways are one
    (F("12.5"), "twelve point five, one two point five"),
    (7, "seven"),
]

MISTAKABLE = [
    (15, True),  # S79, Pennsylvania Patient Safety Advisory, June 2006: 50 heard for 15
    (50, True),  # S79
    (13, True),
    (30, True),
    (19, True),
    (90, True),
    (115, True),
    (15_000, True),
    (F("15.5"), True),
    (51, False),
    (42, False),
    (10, False),
    (12, False),
    (20, False),
    (125, False),
]


@pytest.mark.parametrize(("value", "said"), ONCE)
def test_once(value: int | Fraction, said: str) -> None:
    """A number is said in whole words, decimals figure by figure."""
    assert said == spoken(value)


def test_independent_reader() -> None:
    """Another program's words for 0 to 9999 are ours, but for "and", hyphens and commas."""
    for value in range(10_000):
        other = num2words(value).replace("-", " ").replace(",", "").replace(" and ", " ")
        assert other == spoken(value)


@given(st.decimals(min_value=0, max_value=10_000, places=3).map(F))
def test_independent_decimals(value: Fraction) -> None:
    """Another program's words for decimals are ours, but for "and", hyphens and commas."""
    other = num2words(int(value)) + "".join(
        f" {num2words(int(figure))}" if figure != "." else " point"
        for figure in f"{float(value % 1):.3f}".rstrip("0").rstrip(".")[1:]
    )
    assert other.replace("-", " ").replace(",", "").replace(" and ", " ") == spoken(value)


@pytest.mark.parametrize("value", REFUSED)
def test_refused(value: int | Fraction) -> None:
    """What has no words is refused, however it is asked for."""
    for say in (spoken, digits, twice, doubled):
        with pytest.raises(ValueError, match="cannot be said"):
            say(value)


@pytest.mark.parametrize(("value", "said"), READ_BACK)
def test_read_back(value: int | Fraction, said: str) -> None:
    """A read-back says a number the two ways, unless they are the same."""
    assert said == twice(value)


@pytest.mark.parametrize(("value", "expected"), MISTAKABLE)
def test_mistakable(value: int | Fraction, expected: bool) -> None:
    """Teens and tens that sound alike are known, and nothing else is; only they are doubled."""
    assert expected == mistakable(value)
    assert (twice(value) if expected else spoken(value)) == doubled(value)


@given(st.integers(0, 10**9 - 1))
def test_digits(value: int) -> None:
    """Digit by digit, a number is its own figures in order."""
    figures = {spoken(figure): str(figure) for figure in range(10)}
    assert str(value) == "".join(figures[word] for word in digits(value).split())
