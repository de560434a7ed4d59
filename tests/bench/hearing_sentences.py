"""Sentences of a grammar drawn at random: rules in turn, short ones and long ones."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle
from random import Random
from typing import assert_never

from handsfree.phrases.grammar import Grammar
from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Null,
    Reference,
    Repeat,
    Rules,
    Sequence,
    Tagged,
    Void,
    Word,
    options,
    short,
)

_TALKATIVE = (0.15, 0.5, 0.85)
"""How likely an optional part is said: by turns hardly, evenly and nearly always."""

_MOST_WORDS = 18
"""Nobody gives a longer command in one breath."""

_MOST_AGAIN = 3


def drawn(grammar: Grammar, seed: str) -> Iterator[tuple[str, str]]:
    """Endless (rule, sentence), every public rule as often as every other, in common spelling."""
    random = Random(seed)
    rules = list(grammar.rules.public)
    random.shuffle(rules)
    for rule in cycle(rules):
        words = _short_enough(grammar.rules, rule, random)
        yield short(rule), " ".join(words)


def _short_enough(rules: Rules, rule: str, random: Random) -> tuple[str, ...]:
    while True:
        walk = _Walk(rules, random, random.choice(_TALKATIVE))
        words = tuple(walk.said(rules.by_name[rule].body))
        if 0 < len(words) <= _MOST_WORDS:
            return words


class _Walk:
    def __init__(self, rules: Rules, random: Random, talkative: float) -> None:
        self._rules, self._random, self._talkative = rules, random, talkative

    def said(self, body: Expansion) -> Iterator[str]:
        match body:
            case Word(text):
                yield from text.casefold().split()
            case Sequence(parts):
                for part in parts:
                    yield from self.said(part)
            case Choice():
                yield from self.said(self._chosen(body))
            case Repeat(inner, least):
                for _ in range(self._times(least)):
                    yield from self.said(inner)
            case Reference(rule):
                yield from self.said(self._rules.by_name[rule].body)
            case Tagged(inner):
                yield from self.said(inner)
            case Null() | Void():
                return
            case _:
                assert_never(body)

    def _chosen(self, choice: Choice) -> Expansion:
        weighed = list(options(choice))
        some = [option for option, _ in weighed if not isinstance(option, Null)]
        if len(some) == len(weighed):
            return self._random.choices(some, [weight for _, weight in weighed])[0]
        return self._random.choice(some) if self._random.random() < self._talkative else Null()

    def _times(self, least: int) -> int:
        times = least
        while times < _MOST_AGAIN and self._random.random() < self._talkative / 2:
            times += 1
        return times
