"""Numbers as they are said, against a writer that knows nothing of the reader."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.phrases.numbers import holds_number, value
from handsfree.phrases.tree import Rules
from handsfree.say.numbers import spoken
from handsfree.signals import Node
from handsfree.testing.disjoint import ambiguity, shared

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


@cache
def numbers(*public: str) -> Grammar:
    rules = read_grammar(GRAMMAR.read_text(encoding="utf-8"), GRAMMAR.name)
    return compile_grammar(Rules(rules.by_name, tuple(map(rules.find, public))))


def read(words: tuple[str, ...], *rules: str) -> Fraction | None:
    """What a sentence of one of these rules is worth; None where it is none."""
    nodes = numbers(*rules).match(words)
    return value(nodes[0]) if nodes else None


def two(n: int) -> str:
    """1 to 99."""
    if n < 20:
        return ONES[n]
    return TENS[n // 10] if n % 10 == 0 else f"{TENS[n // 10]} {ONES[n % 10]}"


def manners(n: int) -> Iterator[str]:
    """Every usual way to say 0 to 9999."""
    yield from map(" ".join, product(*(NOTHING if d == "0" else (ONES[int(d)],) for d in str(n))))
    if 100 <= n < 1000 and n % 100 == 0:
        yield from (f"{ONES[n // 100]} double {nothing}" for nothing in NOTHING)
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
    spoken_ones = {" ".join(words) for words in numbers("whole").sentences(100_000)}
    assert set(written) == spoken_ones
    assert written == {said: {read(tuple(said.split()), "whole")} for said in spoken_ones}


@pytest.mark.parametrize(
    "rule",
    [
        *("digit", "tens", "whole", "large", "decimal", "bodyweight", "percentage"),
        *("year", "month", "day"),
    ],
)
def test_no_number_is_read_two_ways(rule: str) -> None:
    """No sentence of a number rule has two readings."""
    assert ambiguity(numbers(rule)) is None


@pytest.mark.parametrize(("rule", "most"), [("bodyweight", 399), ("percentage", 100)])
def test_a_narrow_number_is_never_more_than_can_be(rule: str, most: int) -> None:
    """Each whole number up to there is read, and none beyond: "four thirty" is no weight."""
    read_again = [read(tuple(spoken(number).split()), rule) for number in range(most + 100)]
    assert read_again == [*range(most + 1), *[None] * 99]
    assert read(("four", "thirty"), rule) is None


@pytest.mark.parametrize(("one", "other"), [("whole", "decimal"), ("whole", "large"), ("large", "decimal")])
def test_a_number_is_of_one_kind(one: str, other: str) -> None:
    """A number is whole, large or broken."""
    assert shared(numbers(one, other), one, other) is None


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
        ("half a", Fraction(1, 2)),
        ("a quarter of a", Fraction(1, 4)),
        ("three quarters of a", Fraction(3, 4)),
        ("two and three quarters", Fraction(11, 4)),
        ("one and a quarter", Fraction(5, 4)),
        ("twenty five thousand", 25_000),
        ("two hundred and fifty thousand", 250_000),
        ("twelve thousand six hundred and five", 12_605),
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
        ("ten thousand", 10_000),
        ("ten thousand thousand", None),
        ("half", None),  # of "one and a half"
        ("three quarters", None),
        ("quarter", None),
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
    assert meant == read(tuple(said.split()), "whole", "large", "decimal")


@given(st.integers(0, 999_999), st.integers(0, 4), st.integers(0, 9_999))
def test_a_number_that_is_said_is_read_again(whole: int, places: int, behind: int) -> None:
    """From the words of an answer back to its number: what the program says, it would understand."""
    broken = whole % 10_000 + Fraction(behind % 10**places, 10**places)
    assert broken == read(tuple(spoken(broken).split()), "whole", "decimal")
    assert whole == read(tuple(spoken(whole).split()), "whole", "large")


@given(st.data())
def test_any_sentence_of_a_number_says_its_value(data: st.DataObject) -> None:
    """From any way of saying a number to its value, to the words of an answer, and to the same value."""
    rule = data.draw(st.sampled_from(["whole", "large", "decimal"]))
    words = tuple(_walk(numbers(rule), data))
    number = read(words, rule)
    assert number is not None
    assert number == read(tuple(spoken(number).split()), "whole", "large", "decimal")


def _walk(grammar: Grammar, data: st.DataObject) -> Iterator[str]:
    """One sentence, word by word: any that the grammar allows."""
    said: tuple[str, ...] = ()
    automaton = grammar.automaton
    states = {automaton.start}
    while True:
        moves = {word for state in states for word in automaton.steps(state).moves}
        ends = grammar.standing(said).complete
        word = data.draw(st.sampled_from(sorted(moves) + [""] * ends)) if moves else ""
        if not word:
            return
        yield word
        said = (*said, word)
        states = {move.to for state in states for move in automaton.steps(state).moves.get(word, ())}


def test_words_of_numbers_are_those_of_the_grammar() -> None:
    """What counts as a word of a number, for an ear that waits for more, is what a number is made of."""
    words = numbers("whole", "large", "decimal").words
    small = {"a", "and", "half", "of", "quarter", "quarters"}
    assert {word for word in words if holds_number((word,))} == words - small


def test_a_rule_without_values_is_no_number() -> None:
    """A rule of somebody else's grammar that is called like ours has no value."""
    with pytest.raises(ValueError, match="is not a number"):
        value(Node("whole", ("four",)))


def test_every_decimal_that_is_said_has_a_value() -> None:
    """Short sentences of <decimal> all have a value."""
    for words in numbers("decimal").sentences(5_000):
        assert read(words, "decimal") is not None


def test_years_months_and_days() -> None:
    """Every year of the century, month and day is said; each sentence has its one value."""
    values = {
        rule: [read(words, rule) for words in numbers(rule).sentences(10_000)]
        for rule in ("year", "month", "day")
    }
    assert set(range(2000, 2100)) == set(values["year"])
    assert list(range(1, 13)) == values["month"]
    assert list(range(1, 32)) == sorted(filter(None, values["day"]))


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
    assert meant == read(tuple(said.split()), "year")


@pytest.mark.parametrize(
    ("rule", "counting"),
    [("fifteen | fifty [six]", True), ("fifteen | fifty", False), ("fifteen | sixty [six]", False)],
)
def test_a_teen_may_be_a_ten_that_goes_on(rule: str, counting: bool) -> None:
    """“Fifteen” waits for more where “fifty” would: the two are taken for each other."""
    text = f"#JSGF V1.0; grammar dose; public <dose> = {rule};"
    grammar = compile_grammar(read_grammar(text, "dose"))
    assert grammar.standing(("fifteen",)).counting == counting
