"""A compiled grammar: what an ear and the judge ask."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import islice

from handsfree.phrases import cover, export
from handsfree.phrases import match as matching
from handsfree.phrases.automaton import Automaton
from handsfree.phrases.enumeration import by_length
from handsfree.phrases.network import lay
from handsfree.phrases.prune import pruned
from handsfree.phrases.spelling import Knows, SoundsLike, knows_all, spelled
from handsfree.phrases.tree import Rules, short
from handsfree.ports import Standing
from handsfree.signals import Node


def compile_grammar(
    rules: Rules,
    *,
    public: Iterable[str] | None = None,
    knows: Knows = knows_all,
    sounds: SoundsLike | None = None,
) -> Grammar:
    """Compile rules for one ear.

    public: names, full or short, of the rules that may be said alone (None: as the grammar says).
    knows: which words the ear can hear. sounds: sounds-like spellings of words that it cannot.
    Raises UnknownWord naming file and line, KeyError for a public rule that is not there.
    """
    chosen = rules.public if public is None else tuple(map(rules.find, public))
    return Grammar(spelled(Rules(rules.by_name, chosen), knows, sounds or {}))


class Grammar:
    """One compiled grammar; satisfies `ports.Sentences`. Words are in the recogniser's spelling."""

    def __init__(self, rules: Rules) -> None:
        self.rules = pruned(rules)
        self.network = lay(self.rules)
        self.automaton = Automaton(self.network)

    @property
    def public(self) -> tuple[str, ...]:
        """Names of the rules that may be said alone, in order of the grammar; none that never match."""
        return tuple(map(short, self.rules.public))

    @cached_property
    def words(self) -> frozenset[str]:
        """Every word that some sentence uses."""
        return cover.pairs(self.network).words

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Tell whether `words` are a sentence and whether more can follow."""
        states = {self.automaton.start}
        for word in words:
            states = {move.to for state in states for move in self.automaton.steps(state).moves.get(word, ())}
        steps = [self.automaton.steps(state) for state in states]
        complete, more = any(step.ends for step in steps), any(step.moves for step in steps)
        return Standing(complete or more, complete, more)

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as a whole sentence, in order of the grammar; empty where there is none."""
        return matching.match(self.automaton, words)

    def phrases(self) -> tuple[str, ...]:
        """Few phrases that together use every pair of neighbouring words the grammar allows, and no other."""
        return self._phrases

    @cached_property
    def _phrases(self) -> tuple[str, ...]:
        # An ear asks again at every swap of the grammar, and walking takes seconds for a big one.
        return cover.phrases(cover.pairs(self.network))

    def jsgf(self) -> str:
        """The grammar as one JSGF text with one public rule, for a recogniser that reads JSGF."""
        return export.jsgf(self.rules)

    def sentences(self, limit: int) -> Iterator[tuple[str, ...]]:
        """Different sentences, shortest first, at most `limit`."""
        return islice(by_length(self.automaton), limit)
