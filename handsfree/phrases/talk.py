"""Talk: sentences of a grammar in the midst of other words, for an ear and for the judge."""

from __future__ import annotations

from collections.abc import Iterable

from handsfree.ports import Graph, Sentences, Standing
from handsfree.signals import Node

OFTEN = 30
"""How often each common word is shown to a recogniser that prices words by counts (`cover.py`): dear beside
the words that go on within a sentence, cheaper than to force other talk into one."""


class Talk:
    """Satisfies `ports.Sentences`. strict: the sentences alone, which the judge goes by.

    between: common words that may stand anywhere, and mean nothing; with them a recogniser need not take
    other talk for a sentence.
    """

    loose = True

    def __init__(self, strict: Sentences, between: Iterable[str]) -> None:
        self._strict = strict
        self._between = tuple(between)
        self.words: frozenset[str] = strict.words

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Where the last words stand that begin a sentence. More can always follow."""
        for first in range(len(words)):
            tail = self._strict.standing(words[first:])
            if tail.possible:
                return Standing(True, tail.complete, True, tail.counting)
        return Standing(True, True, True)

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as one whole sentence."""
        return self._strict.match(words)

    def phrases(self) -> tuple[str, ...]:
        """Those of the sentences, and the common words, each alone: any may follow any."""
        return (*self._strict.phrases(), *(self._between * OFTEN))

    def opposites(self) -> tuple[str, ...]:
        """Those of the sentences."""
        return self._strict.opposites()

    def graph(self) -> Graph:
        """That of the sentences alone."""
        return self._strict.graph()
