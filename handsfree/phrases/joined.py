"""Sentences of a moment in two parts: what is open at most moments is worked out once."""

from __future__ import annotations

from collections.abc import Callable

from handsfree.phrases.grammar import Grammar
from handsfree.ports import Graph, Standing
from handsfree.signals import Node


class Joined:
    """Satisfies `ports.Sentences`. whole: all sentences of a moment, which the judge goes by.

    own: gives those of this moment alone. asides: gives the others, of which nobody says the opposite. What
    stands side by side in a sentence does so in one of the two, so their phrases together are those of the
    whole. Both are asked for by an ear that learns from phrases alone: others never need them.
    """

    loose = False

    def __init__(self, whole: Grammar, own: Callable[[], Grammar], asides: Callable[[], Grammar]) -> None:
        self._whole, self._own, self._asides = whole, own, asides

    @property
    def words(self) -> frozenset[str]:
        """Every word that some sentence uses."""
        return self._whole.words

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Tell whether `words` are a sentence and whether more can follow."""
        return self._whole.standing(words)

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as one whole sentence."""
        return self._whole.match(words)

    def phrases(self) -> tuple[str, ...]:
        """Those of both parts."""
        return (*self._own().phrases(), *self._asides().phrases())

    def opposites(self) -> tuple[str, ...]:
        """Those of the moment alone."""
        return self._own().opposites()

    def graph(self) -> Graph:
        """The smallest graph of all."""
        return self._whole.graph()
