"""A compiled grammar: what an ear and the judge ask."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import chain, islice

from handsfree.phrases import match as matching
from handsfree.phrases.automaton import Automaton
from handsfree.phrases.cover import phrases
from handsfree.phrases.enumeration import by_length
from handsfree.phrases.graph import graph
from handsfree.phrases.neighbours import Neighbours, Pairs
from handsfree.phrases.network import Network, lay
from handsfree.phrases.numbers import TENS, goes_on
from handsfree.phrases.opposites import turned
from handsfree.phrases.prune import pruned
from handsfree.phrases.spelling import Knows, SoundsLike, knows_all, spelled
from handsfree.phrases.tree import Rules, short
from handsfree.ports import Graph, Standing
from handsfree.signals import Node


def compile_grammar(
    rules: Rules,
    *,
    knows: Knows = knows_all,
    sounds: SoundsLike | None = None,
    base: Grammar | None = None,
) -> Grammar:
    """Compile rules for one ear.

    knows: which words the ear can hear. sounds: sounds-like spellings of words that it cannot.
    base: a grammar compiled for the same ear; what it has of the rules is taken over, and costs nothing.
    Raises UnknownWord naming file and line.
    """
    known = base.rules.by_name if base else {}
    fresh = Rules({name: rule for name, rule in rules.by_name.items() if name not in known}, rules.public)
    return Grammar(spelled(fresh, knows, sounds or {}), base, knows)


class Grammar:
    """One compiled grammar; satisfies `ports.Sentences`. Words are in the recogniser's spelling.

    rules: spelled. base: a grammar whose rules they may use too. knows: which words the ear can hear.
    """

    loose = False

    def __init__(self, rules: Rules, base: Grammar | None = None, knows: Knows = knows_all) -> None:
        self._own, self._base, self._knows = pruned(rules).by_name, base, knows
        known = base.rules.by_name if base else {}
        self._public = tuple(name for name in rules.public if name in self._own or name in known)
        self.network: Network = lay(Rules(self._own, self._public), base.network if base else None)
        self.automaton = Automaton(self.network)

    @cached_property
    def rules(self) -> Rules:
        """All that is used of its own rules and of those of the base."""
        every = {**(self._base.rules.by_name if self._base else {}), **self._own}
        used = Rules(every, self._public).reachable(self._public)
        return Rules({name: every[name] for name in used}, self._public)

    @property
    def public(self) -> tuple[str, ...]:
        """Names of the rules that may be said alone, in order of the grammar; none that never match."""
        return tuple(map(short, self._public))

    @cached_property
    def words(self) -> frozenset[str]:
        """Every word that some sentence uses."""
        return self.network.words(self.rules.by_name)

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Tell whether `words` are a sentence and whether more can follow.

        What can follow a ten can follow the teen that it is taken for.
        """
        states = {self.automaton.start}
        for word in words:
            states = {move.to for state in states for move in self.automaton.steps(state).moves.get(word, ())}
        steps = [self.automaton.steps(state) for state in states]
        complete, more = any(step.ends for step in steps), any(step.moves for step in steps)
        follow = frozenset(chain.from_iterable(step.moves for step in steps))
        counting = bool(words) and (words[-1] in follow or goes_on(words[-1], follow))
        if words and not counting and (ten := TENS.get(words[-1])):
            counting = self.standing((*words[:-1], ten)).counting
        return Standing(complete or more, complete, more, counting)

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as a whole sentence, in order of the grammar; empty where there is none."""
        return matching.match(self.automaton, words)

    def phrases(self) -> tuple[str, ...]:
        """Few phrases that together use every pair of neighbouring words the grammar allows, and no other."""
        return self._phrases

    @cached_property
    def _phrases(self) -> tuple[str, ...]:
        # An ear asks again at every swap of the grammar.
        return phrases(self._pairs)

    def opposites(self) -> tuple[str, ...]:
        """Phrases with one word turned into its opposite."""
        return self._opposites

    @cached_property
    def _opposites(self) -> tuple[str, ...]:
        return tuple(turned(self._phrases, self._pairs, self._knows))

    @cached_property
    def _pairs(self) -> Pairs:
        return self._neighbours.pairs(self.rules.by_name)

    @cached_property
    def _neighbours(self) -> Neighbours:
        return Neighbours(self.network, self._base._neighbours if self._base else None)

    def graph(self) -> Graph:
        """The smallest graph of words that has these sentences and no other."""
        return self._graph

    @cached_property
    def _graph(self) -> Graph:
        return graph(self.automaton)

    def sentences(self, limit: int) -> Iterator[tuple[str, ...]]:
        """Different sentences, shortest first, at most `limit`."""
        return islice(by_length(self.automaton), limit)
