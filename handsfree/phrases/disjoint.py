"""Proves that no sentence means two things, or finds one that does."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, product
from typing import NamedTuple

from handsfree.phrases.automaton import Automaton, Marks, Move
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.network import Enter
from handsfree.signals import Node

Words = tuple[str, ...]
Differ = Callable[[str, str], bool]


@dataclass(frozen=True, slots=True)
class Witness:
    """A sentence that means two things, and two of its readings."""

    sentence: Words
    readings: tuple[Node, Node]


def shared(grammar: Grammar, first: str, second: str) -> Witness | None:
    """A sentence of both public rules (short names); None where they are disjoint."""
    return _first(grammar, lambda one, other: {one, other} == {first, second})


def overlap(grammar: Grammar) -> Witness | None:
    """A sentence of two public rules; None where all are disjoint."""
    return _first(grammar, str.__ne__)


def ambiguity(grammar: Grammar) -> Witness | None:
    """A sentence with two readings, of one public rule or of two; None where every sentence has one."""
    return _first(grammar, None)


class _Pair(NamedTuple):
    """Two ways through the automaton with the same words. apart: they mean two things already."""

    one: int
    other: int
    apart: bool


def _first(grammar: Grammar, differ: Differ | None) -> Witness | None:
    """One of the shortest sentences read two ways.

    differ: tells whether two public rules count as different meanings; None: any difference does.
    """
    for sentence in _suspects(grammar.automaton, differ):
        for one, other in combinations(grammar.match(sentence), 2):
            if differ is None or differ(one.rule, other.rule):
                return Witness(sentence, (one, other))
    return None


def _suspects(automaton: Automaton, differ: Differ | None) -> Iterator[Words]:
    """Walk two ways at once with the same words; yield the words where both may end and have parted."""
    start = _Pair(automaton.start, automaton.start, apart=False)
    came: dict[_Pair, tuple[_Pair, str] | None] = {start: None}
    waiting = deque([start])
    while waiting:
        pair = waiting.popleft()
        if _ends_apart(automaton, pair, differ):
            yield _words(came, pair)
        for sound, after in _nexts(automaton, pair, differ):
            if after not in came:
                came[after] = (pair, sound)
                waiting.append(after)


def _nexts(automaton: Automaton, pair: _Pair, differ: Differ | None) -> Iterator[tuple[str, _Pair]]:
    ones, others = automaton.steps(pair.one).moves, automaton.steps(pair.other).moves
    for sound in ones:
        if sound in others:
            for one, other in _meetings(pair, ones[sound], others[sound]):
                apart = pair.apart or _part(automaton, pair, one.marks, other.marks, differ)
                if apart or differ is None:
                    yield sound, _Pair(min(one.to, other.to), max(one.to, other.to), apart)


def _meetings(pair: _Pair, ones: tuple[Move, ...], others: tuple[Move, ...]) -> Iterator[tuple[Move, Move]]:
    """Each two moves once: from one and the same state the order does not matter."""
    if pair.one != pair.other:
        return product(ones, others)
    return ((one, other) for number, one in enumerate(ones) for other in ones[number:])


def _part(automaton: Automaton, pair: _Pair, one: Marks, other: Marks, differ: Differ | None) -> bool:
    """Tell whether two ways part here: by any mark, or by the public rule with which they begin."""
    if differ is None:
        return one != other
    begins = pair.one == pair.other == automaton.start
    return begins and differ(_public(one), _public(other))


def _ends_apart(automaton: Automaton, pair: _Pair, differ: Differ | None) -> bool:
    ones, others = automaton.steps(pair.one).ends, automaton.steps(pair.other).ends
    return any(
        pair.apart or _part(automaton, pair, one, other, differ) for one, other in product(ones, others)
    )


def _public(marks: Marks) -> str:
    first = marks[0]
    assert isinstance(first, Enter)
    return first.rule


def _words(came: dict[_Pair, tuple[_Pair, str] | None], pair: _Pair) -> Words:
    words: list[str] = []
    step = came[pair]
    while step is not None:
        pair, sound = step
        words.append(sound)
        step = came[pair]
    return tuple(words[::-1])
