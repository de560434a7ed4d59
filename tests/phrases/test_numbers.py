"""Numbers as they are said, against a writer that knows nothing of the reader."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from pathlib import Path

import pytest

from handsfree.phrases.disjoint import ambiguity, shared
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import no_imports, read_grammar
from handsfree.phrases.numbers import day, month, number, whole, year

GRAMMAR = Path(__file__).parents[2] / "grammars" / "numbers.jsgf"
ONES = (
    *(
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
    ),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
TENS = ("-", "-", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
NOTHING = ("zero", "oh", "nought")


def numbers(*public: str) -> Grammar:
    rules = read_grammar(GRAMMAR.read_text(encoding="utf-8"), GRAMMAR.name, no_imports)
    return compile_grammar(rules, public=public)


def two(n: int) -> str:
    """1 to 99."""
    if n < 20:
        return ONES[n]
    return TENS[n // 10] if n % 10 == 0 else f"{TENS[n // 10]} {ONES[n % 10]}"


def manners(n: int) -> Iterator[str]:
    """Every usual way to say 0 to 9999."""
    yield from map(" ".join, product(*(NOTHING if d == "0" else (ONES[int(d)],) for d in str(n))))
    if 10 <= n < 100:
        yield two(n)
    if n >= 100 and n % 100 >= 10:
        yield f"{two(n // 100)} {two(n % 100)}"
    if n >= 1000 and 0 < n % 100 < 10 and n // 100 >= 10:
        yield from (f"{two(n // 100)} {nothing} {two(n % 100)}" for nothing in NOTHING)
    if n >= 100 and n // 100 % 10 and n // 100 != 10:
        yield from (head + tail for head in heads(n // 100, "hundred") for tail in tails(n % 100))
    if n >= 1000:
        hundreds = f" {ONES[n // 100 % 10]} hundred" if n // 100 % 10 else ""
        yield from (
            head + hundreds + tail for head in heads(n // 1000, "thousand") for tail in tails(n % 100)
        )


def heads(n: int, what: str) -> list[str]:
    return [f"one {what}", f"a {what}"] if n == 1 else [f"{two(n)} {what}"]


def tails(n: int) -> list[str]:
    return [f" {two(n)}", f" and {two(n)}"] if n else [""]


def test_every_whole_number_is_said_and_read_in_every_manner() -> None:
    """The grammar holds exactly what the writer says, and each sentence reads back to its number alone."""
    written: dict[str, set[int]] = defaultdict(set)
    for n in range(10_000):
        for said in manners(n):
            written[said].add(n)
    spoken = {" ".join(words) for words in numbers("whole").sentences(100_000)}
    assert set(written) == spoken
    assert written == {said: {whole(said.split())} for said in spoken}


@pytest.mark.parametrize("rule", ["digit", "tens", "whole", "decimal", "year", "month", "day"])
def test_no_number_is_read_two_ways(rule: str) -> None:
    """No sentence of a number rule has two readings."""
    assert ambiguity(numbers(rule)) is None


def test_whole_and_decimal_are_disjoint() -> None:
    """A number is whole or it is not."""
    assert shared(numbers("whole", "decimal"), "whole", "decimal") is None


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("one hundred and twenty five", 125),
        ("one twenty five", 125),
        ("one two five", 125),
        ("twelve fifty", 1250),
        ("a thousand", 1000),
        ("one thousand five hundred", 1500),
        ("fifteen hundred", 1500),
        ("oh", 0),
        ("nought point nine", Fraction(9, 10)),
        ("one point four five", Fraction(145, 100)),
        ("zero point five", Fraction(1, 2)),
        ("one twenty five point oh five", Fraction(12505, 100)),
        ("half", Fraction(1, 2)),
        ("one and a half", Fraction(3, 2)),
        ("twenty two and a half", Fraction(45, 2)),
        ("", None),
        ("hundred", None),
        ("point five", None),
        ("one point", None),
        ("one point twenty", None),
        ("one point two point three", None),
        ("one point two three four five six", None),
        ("oh five", None),
        ("ten hundred", None),
        ("twenty hundred", None),
        ("ten thousand", None),
        ("one hundred and", None),
        ("and five", None),
        ("fifteen five", None),
        ("one and a half and a half", None),
        ("one two and a half", None),
        ("a half", None),
        ("five five five five five", None),
        ("fifteen drops", None),
    ],
)
def test_numbers(said: str, meant: Fraction | int | None) -> None:
    """The value is exact; what is left when a word was lost is no number, and the grammar agrees."""
    words = tuple(said.split())
    matched = bool(numbers("whole", "decimal").match(words))
    if meant is None:
        assert not matched
        with pytest.raises(ValueError, match="is not a number"):
            number(words)
    else:
        assert matched
        assert meant == number(words)


def test_every_decimal_that_is_said_has_a_value() -> None:
    """Short sentences of <decimal> all have a value."""
    for words in numbers("decimal").sentences(5_000):
        assert number(words) >= 0


def test_years_months_and_days() -> None:
    """Every year of the century, month and day is said; each sentence has its one value."""
    assert set(range(2000, 2100)) == {year(words) for words in numbers("year").sentences(10_000)}
    assert list(range(1, 13)) == sorted(month(words) for words in numbers("month").sentences(100))
    assert list(range(1, 32)) == sorted(day(words) for words in numbers("day").sentences(100))


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("twenty twenty eight", 2028),
        ("twenty oh five", 2005),
        ("two thousand and twenty eight", 2028),
        ("two oh two eight", 2028),
        ("two thousand", 2000),
        ("nineteen ninety nine", None),
        ("twenty eight", None),
        ("twenty", None),
    ],
)
def test_years(said: str, meant: int | None) -> None:
    """A year is of this century, and never only its last two digits."""
    words = tuple(said.split())
    assert (meant is not None) == bool(numbers("year").match(words))
    if meant is None:
        with pytest.raises(ValueError, match="is not a year"):
            year(words)
    else:
        assert meant == year(words)


@pytest.mark.parametrize(("value", "said"), [(month, "moon"), (day, "thirty second"), (day, "twelve")])
def test_what_is_no_date(value: object, said: str) -> None:
    """What is not in the calendar is refused."""
    assert callable(value)
    with pytest.raises(ValueError, match="is not a"):
        value(said.split())
