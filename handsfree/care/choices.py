"""Speech that could be two commands: what they differ in, and which of them an answer means."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from handsfree.care.commands import Answer, Say
from handsfree.care.values import KINDS

_SCALES = (1, 60, 1000)
"""A number is said in the unit of the record or in a larger one: hours for minutes, litres for mL."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Commands of which one was said, the likelier first: two, or one for each of several lines.

    due: when the question lapses.
    """

    candidates: tuple[Say, ...]
    due: datetime


def answers_of(said: Say) -> tuple[Answer, ...]:
    """The answers in a sentence; a bare value is one too."""
    bare = next((kind for kind, known in KINDS.items() if known.bare == said.rule), "")
    return said.answers or ((Answer(bare, said.reason, said.text),) if bare else ())


def difference(candidates: tuple[Say, ...]) -> tuple[Answer, Answer] | None:
    """The one answer in which two sentences differ, as each has it; None where they differ in more, or where
    it is asked which of more lines is meant."""
    if len(candidates) != 2:
        return None
    one, other = map(answers_of, candidates)
    if [answer.rule for answer in one] != [answer.rule for answer in other]:
        return None
    pairs = [(mine, yours) for mine, yours in zip(one, other, strict=True) if mine.value != yours.value]
    return pairs[0] if len(pairs) == 1 else None


def numbers(candidates: tuple[Say, ...]) -> tuple[Fraction, Fraction] | None:
    """The two numbers between which to choose; None where it is not about numbers."""
    differ = difference(candidates)
    if differ is None:
        return None
    one, other = (_number(answer) for answer in differ)
    return (one, other) if one is not None and other is not None and one != other else None


def chosen(candidates: tuple[Say, ...], number: Fraction | int) -> Say | None:
    """The sentence with this number, said in whatever unit; None where neither has it, or both."""
    known = numbers(candidates) or ()
    fits = [
        said
        for said, value in zip(candidates, known, strict=False)
        if value in [number * scale for scale in _SCALES]
    ]
    return fits[0] if len(fits) == 1 else None


def _number(answer: Answer) -> Fraction | None:
    """The number of a value, of a count the drops; None for a value that is no number, or is two gauges."""
    text = answer.value.partition("/")[0] if answer.rule == "count" else answer.value
    if answer.rule == "gauge" and "/" in text:
        return None
    try:
        return Fraction(text)
    except ValueError:
        return None
