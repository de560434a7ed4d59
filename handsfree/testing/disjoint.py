"""Proves that no sentence means two things, or finds one that does."""

from __future__ import annotations

from collections import deque
from collections.abc import Container, Hashable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, product
from typing import NamedTuple, TypeVar

from handsfree.phrases.automaton import Automaton, Marks, Move
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.network import Enter
from handsfree.signals import Node

Words = tuple[str, ...]
_Place = TypeVar("_Place", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Witness:
    """A sentence that means two things, and two of its readings."""

    sentence: Words
    readings: tuple[Node, Node]


def shared(grammar: Grammar, first: str, second: str) -> Witness | None:
    """A sentence of both public rules (short names); None where they are disjoint."""
    return _of_two_rules(grammar, (first, second))


def overlap(grammar: Grammar) -> Witness | None:
    """A sentence of two public rules; None where all are disjoint."""
    return _of_two_rules(grammar, grammar.public)


def ambiguity(grammar: Grammar) -> Witness | None:
    """A sentence with two readings, of one public rule or of two; None where every sentence has one."""
    for sentence in _parted(grammar.automaton):
        for one, other in combinations(grammar.match(sentence), 2):
            return Witness(sentence, (one, other))
    return None


_Ways = tuple[tuple[str, frozenset[int]], ...]
"""States that the same words lead to, by the public rule with which the way to them began, in order of its
name; before the first word the name is empty."""


def _of_two_rules(grammar: Grammar, rules: Container[str]) -> Witness | None:
    """One of the shortest sentences that two of these public rules have."""
    for sentence in _common(grammar.automaton, rules):
        for one, other in combinations(grammar.match(sentence), 2):
            if one.rule != other.rule and one.rule in rules and other.rule in rules:
                return Witness(sentence, (one, other))
    return None


def _common(automaton: Automaton, rules: Container[str]) -> Iterator[Words]:
    """Follow all ways with the same words at once, while two rules have some; yield where two may end."""
    start: _Ways = (("", frozenset((automaton.start,))),)
    came: dict[_Ways, tuple[_Ways, str] | None] = {start: None}
    waiting = deque(came)
    while waiting:
        ways = waiting.popleft()
        if len({rule for rule in _ended(automaton, ways) if rule in rules}) > 1:
            yield _words(came, ways)
        for sound, after in _following(automaton, ways, rules):
            if after not in came:
                came[after] = (ways, sound)
                waiting.append(after)


def _following(automaton: Automaton, ways: _Ways, rules: Container[str]) -> Iterator[tuple[str, _Ways]]:
    """The ways on, by each word with which two of the rules go on."""
    after: dict[str, dict[str, set[int]]] = {}
    for rule, states in ways:
        for state in states:
            for sound, moves in automaton.steps(state).moves.items():
                reached = after.setdefault(sound, {})
                for move in moves:
                    reached.setdefault(rule or _public(move.marks), set()).add(move.to)
    for sound, reached in after.items():
        found = sorted((rule, frozenset(states)) for rule, states in reached.items() if rule in rules)
        if len(found) > 1:
            yield sound, tuple(found)


def _ended(automaton: Automaton, ways: _Ways) -> Iterator[str]:
    """The rules with which the sentence may end here."""
    ends = ((rule, automaton.steps(state).ends) for rule, states in ways for state in states)
    return (rule or _public(marks) for rule, each in ends for marks in each)


def _public(marks: Marks) -> str:
    first = marks[0]
    assert isinstance(first, Enter)
    return first.rule


class _Pair(NamedTuple):
    """Two ways through the automaton with the same words. apart: they mean two things already."""

    one: int
    other: int
    apart: bool


def _parted(automaton: Automaton) -> Iterator[Words]:
    """Walk two ways at once with the same words; yield the words where both may end and have parted."""
    start = _Pair(automaton.start, automaton.start, apart=False)
    came: dict[_Pair, tuple[_Pair, str] | None] = {start: None}
    waiting = deque(came)
    while waiting:
        pair = waiting.popleft()
        ends = product(automaton.steps(pair.one).ends, automaton.steps(pair.other).ends)
        if any(pair.apart or one != other for one, other in ends):
            yield _words(came, pair)
        for sound, after in _nexts(automaton, pair):
            if after not in came:
                came[after] = (pair, sound)
                waiting.append(after)


def _nexts(automaton: Automaton, pair: _Pair) -> Iterator[tuple[str, _Pair]]:
    ones, others = automaton.steps(pair.one).moves, automaton.steps(pair.other).moves
    for sound in ones:
        if sound in others:
            for one, other in _meetings(pair, ones[sound], others[sound]):
                apart = pair.apart or one.marks != other.marks
                yield sound, _Pair(min(one.to, other.to), max(one.to, other.to), apart)


def _meetings(pair: _Pair, ones: tuple[Move, ...], others: tuple[Move, ...]) -> Iterator[tuple[Move, Move]]:
    """Each two moves once: from one and the same state the order does not matter."""
    if pair.one != pair.other:
        return product(ones, others)
    return ((one, other) for number, one in enumerate(ones) for other in ones[number:])


def _words(came: Mapping[_Place, tuple[_Place, str] | None], place: _Place) -> Words:
    words: list[str] = []
    step = came[place]
    while step is not None:
        place, sound = step
        words.append(sound)
        step = came[place]
    return tuple(words[::-1])
