"""Few phrases for a recogniser that learns from them which word may follow which (Vosk's is a bigram).

What Vosk 0.3.45 makes of them (`src/language_model.cc`): half of what can follow a word goes to the followers
that it was shown with, by their counts; half to every word, by its count anywhere. It knows no beginning of a
sentence: a first word costs what it costs anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import cycle, groupby

from handsfree.phrases.neighbours import EDGE, Pairs

SHORT = 3
"""How often the shortest phrase of each first word is shown once more. What people say most is short, and a
short command's words stand in few pairs: without this they cost more than those of numbers, which stand in
many. Of 153 fixtures in white noise at 10 dB, one phase open, it brought four more right and none wrong."""


def phrases(allowed: Pairs) -> tuple[str, ...]:
    """Few phrases that use every allowed pair and no other, from an allowed first word to an allowed last.

    Where one must be shown again, those that will do are taken in turn.
    """
    walker = _Walker(allowed)
    for word in walker.order:
        walker.exhaust(word)
    for word in allowed[EDGE] * SHORT:
        walker.begin(word)
    return walker.phrases()


class _Walker:
    """The words are the junctions of a map, the pairs its one-way streets: every street is to be walked.

    Where all have been walked, two tables tell how to get on: the shortest ways from the edge and back to it.
    order: in which junctions are best exhausted; where more streets begin than end, walks must begin anyway.
    """

    def __init__(self, follows: Pairs) -> None:
        precedes = _reversed(follows)
        self.order = sorted(follows, key=lambda word: len(precedes[word]) - len(follows[word]))
        self._before = _nearer(precedes, _distances(follows))
        self._home = _nearer(follows, _distances(precedes))
        self._allowed = {word: frozenset(after) for word, after in follows.items()}
        self._new = {word: list(reversed(after)) for word, after in follows.items()}
        self._walk = [EDGE]

    def exhaust(self, word: str) -> None:
        """Walk until no street from this word is new; on the way, any other new one that offers itself."""
        while self._new[word]:
            self._go(word)
            while streets := self._new[self._walk[-1]]:
                self._walk.append(streets.pop())

    def begin(self, first: str) -> None:
        """Go home, and begin a phrase with this word."""
        self._go(EDGE)
        self._walk.append(first)

    def phrases(self) -> tuple[str, ...]:
        """What was walked, from edge to edge."""
        self._go(EDGE)
        between_edges = groupby(self._walk, key=EDGE.__ne__)
        return tuple(" ".join(words) for said, words in between_edges if said)

    def _go(self, goal: str) -> None:
        """Take the shortest way from the edge, joined as late as can be; go home until it can."""
        way = [goal]
        while way[-1] != EDGE:
            way.append(next(self._before[way[-1]]))
        while (here := self._walk[-1]) != goal:
            allowed = self._allowed[here]
            for at, word in enumerate(way):
                if word in allowed:
                    self._walk += way[at::-1]
                    break
            else:
                self._walk.append(next(self._home[here]))


def _reversed(streets: Pairs) -> Pairs:
    """The same streets, each the other way."""
    into: dict[str, list[str]] = {word: [] for word in streets}
    for word, after in streets.items():
        for follower in after:
            into[follower].append(word)
    return {word: tuple(before) for word, before in into.items()}


def _distances(streets: Pairs) -> dict[str, int]:
    """How many streets each word is away from the edge, the nearest first."""
    far = {EDGE: 0}
    waiting = [EDGE]
    for word in waiting:
        for follower in streets[word]:
            if follower not in far:
                far[follower] = far[word] + 1
                waiting.append(follower)
    return far


def _nearer(streets: Pairs, far: Mapping[str, int]) -> dict[str, Iterator[str]]:
    """For each word the ends of its streets that are one nearer to the edge, in turn and for ever."""
    return {word: cycle([to for to in streets[word] if far[to] < far[word]]) for word in far if word != EDGE}
