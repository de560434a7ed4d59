"""Which of two was said? A short question about what they differ in. Pure."""

from __future__ import annotations

from fractions import Fraction

from handsfree.care.choices import difference, numbers
from handsfree.care.commands import Say
from handsfree.say.numbers import digits, spoken
from handsfree.say.wording_values import capital, value_words
from handsfree.words import worded


def which(candidates: tuple[Say, ...]) -> str:
    """ "Did you say fifteen, or fifty? One five, or five zero." """
    if candidates[0].line:
        return worded("For {lines}?", lines=worded(", or ").join(one.line for one in candidates))
    pair = numbers(candidates)
    differ = difference(candidates)
    if pair is not None and (as_said := _in_one_unit(differ[0].rule if differ else "", pair)):
        one, other = map(spoken, as_said)
        return worded("Did you say {one} or {other}?", one=one, other=other) + _by_digits(as_said)
    if differ is not None:
        one, other = (value_words(answer.rule, answer.value) for answer in differ)
        if one != other:
            return worded("Did you say {one}, or {other}?", one=one, other=other)
    names = [said.text for said in candidates]
    if len(set(names)) == 1:
        return worded("Two numbers in a row. Say them one at a time.")
    return worded("Did you say {names}?", names=worded(", or ").join(names))


def _in_one_unit(kind: str, pair: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction] | None:
    """The numbers as they were said: whole hours as hours; None where one was hours and the other minutes."""
    if kind != "infusion_time":
        return pair
    in_hours = [minutes % 60 == 0 for minutes in pair]
    if all(in_hours):
        return pair[0] / 60, pair[1] / 60
    return None if any(in_hours) else pair


def _by_digits(pair: tuple[Fraction, Fraction]) -> str:
    words = [digits(number) for number in pair]
    return f" {capital(worded(', or ').join(words))}." if words != [spoken(number) for number in pair] else ""
