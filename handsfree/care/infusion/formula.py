"""A formula as data: the text that people read is what is worked out.

"volume × drop factor ÷ time" is a sum of products (with + and −) over quantities by name, and over constants,
which begin with a digit and carry their unit: "60 min/h".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import prod

from handsfree.care.infusion.rounding import decimal_text, half_up


@dataclass(frozen=True, slots=True)
class Measure:
    """An exact number with its unit."""

    value: Fraction
    unit: str

    def __str__(self) -> str:
        return f"{plain(self.value)} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Factor:
    """One factor of a product. name: of a quantity, or a constant as it is written."""

    name: str
    divides: bool

    @property
    def constant(self) -> Measure | None:
        """The constant; None for a quantity."""
        return _constant(self.name)

    def measure(self, known: Mapping[str, Measure]) -> Measure:
        """The constant, or the quantity of that name; raises KeyError where it is missing."""
        return self.constant or known[self.name]


@dataclass(frozen=True, slots=True)
class Term:
    """A product that is added, or taken away."""

    factors: tuple[Factor, ...]
    minus: bool

    def product(self, known: Mapping[str, Measure]) -> Fraction:
        """Its value, with its sign."""
        over = prod(factor.measure(known).value for factor in self.factors if factor.divides)
        times = prod(factor.measure(known).value for factor in self.factors if not factor.divides)
        return Fraction(-times if self.minus else times) / over

    def written(self, known: Mapping[str, Measure]) -> str:
        """With its numbers in place, as in `1000 mL ÷ 480 min`."""
        first, *others = self.factors
        signs = (f" {'÷' if factor.divides else '×'} {factor.measure(known)}" for factor in others)
        return "".join([str(first.measure(known)), *signs])


@dataclass(frozen=True, slots=True)
class Formula:
    """How one quantity follows from others. gives: its name. text: a sum of products. source: who says so."""

    gives: str
    text: str
    source: str

    @property
    def terms(self) -> tuple[Term, ...]:
        """The products that are added."""
        return _terms(self.text)

    @property
    def needs(self) -> frozenset[str]:
        """Names of the quantities that it takes."""
        return _needs(self.text)

    @property
    def method(self) -> str:
        """Formula and source in a line."""
        return f"{self.gives} = {self.text} ({self.source})"

    def work_out(self, known: Mapping[str, Measure]) -> Fraction:
        """The exact number that follows; raises KeyError where a quantity is missing."""
        return sum((term.product(known) for term in self.terms), Fraction(0))

    def working(self, known: Mapping[str, Measure]) -> str:
        """The same with its numbers in place; a product that is zero is left out."""
        first, *others = [term for term in self.terms if term.product(known)]
        signed = (f" {'−' if term.minus else '+'} {term.written(known)}" for term in others)
        return "".join([first.written(known), *signed])


def plain(value: Fraction) -> str:
    """A number in decimals, to the fourth where it does not end before."""
    return decimal_text(Fraction(half_up(value * 10_000), 10_000))


@cache
def _constant(name: str) -> Measure | None:
    number, _, unit = name.partition(" ")
    return Measure(Fraction(number), unit) if number[0].isdigit() else None


@cache
def _terms(text: str) -> tuple[Term, ...]:
    first, *others = re.split(r" ([+−]) ", text)
    signed = [("+", first), *zip(others[::2], others[1::2], strict=True)]
    return tuple(Term(tuple(_factors(product)), sign == "−") for sign, product in signed)


@cache
def _needs(text: str) -> frozenset[str]:
    names = (factor for term in _terms(text) for factor in term.factors)
    return frozenset(factor.name for factor in names if factor.constant is None)


def _factors(product: str) -> Iterator[Factor]:
    first, *others = re.split(r" ([×÷]) ", product)
    yield Factor(first, divides=False)
    for sign, name in zip(others[::2], others[1::2], strict=True):
        yield Factor(name, divides=sign == "÷")
