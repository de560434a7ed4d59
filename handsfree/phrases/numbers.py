"""The value of numbers, years, months and days: what `grammars/numbers.jsgf` lets people say, it also values.

The words and what each is worth stand there, as tags; here stands what a rule does with the values inside it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from fractions import Fraction
from types import MappingProxyType

from handsfree.signals import Node

_ROUND = frozenset(("hundred", "thousand"))
_COUNTED = frozenset(
    (
        *("zero", "oh", "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
        *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
        *("nineteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"),
        *(*_ROUND, "double", "point"),
    )
)
"""Words of numbers in any grammar; a test compares them with those of the shipped one."""


RULES = frozenset(
    (
        *("whole", "small", "tens", "digit", "large", "decimal", "bodyweight", "percentage"),
        *("year", "month", "day"),
    )
)
"""Rules that hold one number each."""


TENS = {
    "thirteen": "thirty",
    "fourteen": "forty",
    "fifteen": "fifty",
    "sixteen": "sixty",
    "seventeen": "seventy",
    "eighteen": "eighty",
    "nineteen": "ninety",
}
"""What sounds like a teen, and is taken for one while the rest of it is still to come: "fifty six"."""


def goes_on(last: str, follow: AbstractSet[str]) -> bool:
    """Whether a number that ends with the word `last` can go on with one of `follow`."""
    return (last in _COUNTED and not follow.isdisjoint(_COUNTED)) or (last in _ROUND and "and" in follow)


def holds_number(words: Iterable[str]) -> bool:
    """Whether a word of a number is among them."""
    return not _COUNTED.isdisjoint(words)


def sound_alike(one: Sequence[str], other: Sequence[str]) -> bool:
    """Whether sentences are the same but for teens in place of tens: "in fifteen hours", "in fifty hours"."""
    return [TENS.get(word, word) for word in one] == [TENS.get(word, word) for word in other]


def value(node: Node) -> Fraction:
    """What a use of a rule of `numbers` is worth. Raises ValueError for a rule whose words have no value."""
    values = [*map(Fraction, node.tags), *map(value, node.children)]
    if not values:
        raise ValueError(f"“{' '.join(node.words)}” is not a number")
    return _COMBINED.get(node.rule, _added)(values)


def _added(values: Sequence[Fraction]) -> Fraction:
    return sum(values, Fraction())


def _in_figures(values: Sequence[Fraction]) -> Fraction:
    """One digit after the other: 1, 2, 5 make 125."""
    return Fraction("".join(map(str, values)))


def _behind_the_point(values: Sequence[Fraction]) -> Fraction:
    return Fraction(f"0.{''.join(map(str, values))}")


def _hundreds_and_rest(values: Sequence[Fraction]) -> Fraction:
    """“twelve fifty”: 1250."""
    return values[0] * 100 + _added(values[1:])


def _times(times: int) -> Callable[[Sequence[Fraction]], Fraction]:
    return lambda values: _added(values) * times


_COMBINED: Mapping[str, Callable[[Sequence[Fraction]], Fraction]] = MappingProxyType(
    {
        "digits": _in_figures,
        "figures": _in_figures,
        "places": _behind_the_point,
        **dict.fromkeys(("pair", "narrow_pair"), _hundreds_and_rest),
        **dict.fromkeys(("hundred", "hundreds", "unit_hundred", "narrow_hundreds", "double_oh"), _times(100)),
        **dict.fromkeys(("thousand", "thousands"), _times(1000)),
    }
)
"""By rule, what it makes of the values inside; any other rule adds them up."""
