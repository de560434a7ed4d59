"""The automaton as the smallest graph of words that accepts the same sentences, for recognisers that walk it.

What stands more than once in rules, loops and spellings comes together: a recogniser follows it once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet

from handsfree.phrases.automaton import Automaton
from handsfree.ports import Graph

Moves = Sequence[Mapping[str, int]]
"""For each state, the next one by word."""


def graph(automaton: Automaton) -> Graph:
    """The graph. Unfolds the whole automaton."""
    moves, ends = _without_choice(automaton)
    kinds = _kinds(moves, ends)
    first = dict(zip(reversed(kinds), reversed(moves), strict=True))
    return Graph(
        tuple({word: kinds[to] for word, to in first[kind].items()} for kind in range(len(first))),
        frozenset(kinds[state] for state in ends),
    )


def _without_choice(automaton: Automaton) -> tuple[Moves, AbstractSet[int]]:
    """Sets of the automaton's states as states: one way on with each word. And those that may end."""
    sets = {frozenset((automaton.start,)): 0}
    moves: list[dict[str, int]] = []
    ends: set[int] = set()
    waiting = list(sets)
    for states in waiting:
        if any(automaton.steps(state).ends for state in states):
            ends.add(len(moves))
        moves.append({})
        for word, to in automaton.ways(states).items():
            if to not in sets:
                sets[to] = len(sets)
                waiting.append(to)
            moves[-1][word] = sets[to]
    return moves, ends


def _kinds(moves: Moves, ends: AbstractSet[int]) -> list[int]:
    """For each state the number of its kind: states of one kind are followed by the same words for ever.

    Kinds are numbered in order of their first state. Moore's algorithm.
    """
    kinds, known = [int(state in ends) for state in range(len(moves))], 0
    while True:
        numbers: dict[tuple[int, frozenset[tuple[str, int]]], int] = {}
        kinds = [
            numbers.setdefault(
                (kinds[state], frozenset((word, kinds[to]) for word, to in ways.items())), len(numbers)
            )
            for state, ways in enumerate(moves)
        ]
        if len(numbers) == known:
            return kinds
        known = len(numbers)
