"""Writes out sentences, shortest first, without going through the many that are not asked for."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from handsfree.phrases.automaton import Automaton

_States = frozenset[int]


def by_length(automaton: Automaton) -> Iterator[tuple[str, ...]]:
    """Every sentence once, shortest first; endless where the grammar is."""
    walker = _Walker(automaton)
    front = {frozenset({automaton.start})}
    for length in count():
        if not front:
            return
        yield from walker.sentences(frozenset({automaton.start}), length, ())
        front = {to for states in front for to in walker.ways(states).values()}


class _Walker:
    """Walks all states at once in which the same words can lead."""

    def __init__(self, automaton: Automaton) -> None:
        self._automaton = automaton
        self._ways: dict[_States, dict[str, _States]] = {}
        self._ends_in: dict[tuple[_States, int], bool] = {}

    def ways(self, states: _States) -> dict[str, _States]:
        if states not in self._ways:
            self._ways[states] = self._automaton.ways(sorted(states))
        return self._ways[states]

    def sentences(self, states: _States, left: int, said: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
        """All that end after exactly `left` more words."""
        if not self._can_end(states, left):
            return
        if left == 0:
            yield said
        for sound, to in self.ways(states).items() if left else ():
            yield from self.sentences(to, left - 1, (*said, sound))

    def _can_end(self, states: _States, left: int) -> bool:
        key = (states, left)
        if key not in self._ends_in:
            self._ends_in[key] = (
                any(self._can_end(to, left - 1) for to in self.ways(states).values())
                if left
                else any(self._automaton.steps(state).ends for state in states)
            )
        return self._ends_in[key]
