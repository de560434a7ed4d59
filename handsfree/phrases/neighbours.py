"""Which word may stand beside which in the sentences of a network, exactly; rules are never unfolded."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from itertools import compress
from typing import assert_never

from handsfree.phrases.network import Arc, Begin, Call, End, Jump, Network, Say, Skip

EDGE = ""
"""What stands before the first and behind the last word of a sentence."""


Pairs = Mapping[str, tuple[str, ...]]
"""For each word, and EDGE, the words (and EDGE) that may come next, in order of the grammar."""


class Neighbours:
    """With which words each node of a network can begin; from this follow the pairs.

    base: the same of the network over which this one was laid; what is known of its nodes is taken over.
    Sets of words are bits of an integer; bit 0 is EDGE. All grow until nothing changes.
    """

    def __init__(self, network: Network, base: Neighbours | None = None) -> None:
        self._net = network
        self._first: list[int] = list(base._first) if base else [0]
        self._empty: list[bool] = list(base._empty) if base else [True]
        sounds: tuple[str, ...] = base._sounds if base else (EDGE,)
        fresh = range(len(self._first), len(network.arcs))
        said = (arc.sound for node in fresh for arc in network.arcs[node] if isinstance(arc, Say))
        self._sounds: tuple[str, ...] = tuple(dict.fromkeys((*sounds, *said)))
        self._bits = {sound: 1 << number for number, sound in enumerate(self._sounds)}
        self._first += [0] * len(fresh)
        self._empty += [False] * len(fresh)
        self._settle(fresh)

    def pairs(self, rules: Container[str]) -> Pairs:
        """All pairs of neighbouring words in its sentences. rules: full names of those that it uses."""
        used = [
            (arc, owner)
            for arcs, owner in zip(self._net.arcs, self._net.owners, strict=True)
            if owner in rules
            for arc in arcs
        ]
        after = self._after([(arc, owner) for arc, owner in used if isinstance(arc, Call | Jump)])
        start = self._net.start
        follows = {EDGE: self._first[start] | (self._bits[EDGE] if self._empty[start] else 0)}
        for arc, owner in used:
            if isinstance(arc, Say):
                behind = self._behind(arc.to, after[owner])
                follows[arc.sound] = follows.get(arc.sound, 0) | behind
        return {sound: tuple(self._listed(bits)) for sound, bits in follows.items()}

    def _settle(self, nodes: range) -> None:
        changed = True
        while changed:
            changed = False
            for node in nodes:
                before = (self._first[node], self._empty[node])
                for arc in self._net.arcs[node]:
                    first, empty = self._opening(arc)
                    self._first[node] |= first
                    self._empty[node] |= empty
                changed |= before != (self._first[node], self._empty[node])

    def _opening(self, arc: Arc) -> tuple[int, bool]:
        """Words that an arc can begin with, and whether the end of its rule can be reached without one."""
        match arc:
            case Say(sound):
                return self._bits[sound], False
            case Skip(to) | Begin(to):
                return self._first[to], self._empty[to]
            case End(again, empty):
                behind = again if empty is None else empty
                return self._first[again] | self._first[behind], self._empty[again] or self._empty[behind]
            case Jump(rule):
                entry = self._net.entries[rule]
                return self._first[entry], self._empty[entry]
            case Call(rule, back):
                entry = self._net.entries[rule]
                if self._empty[entry]:
                    return self._first[entry] | self._first[back], self._empty[back]
                return self._first[entry], False
            case _:
                assert_never(arc)

    def _after(self, uses: list[tuple[Call | Jump, str]]) -> dict[str, int]:
        """What can follow each rule. uses: the arcs into rules, each with the rule in which it stands."""
        public = {arc.rule for arc in self._net.arcs[self._net.start] if isinstance(arc, Jump)}
        after = {rule: self._bits[EDGE] if rule in public else 0 for rule in self._net.entries}
        changed = True
        while changed:
            changed = False
            for arc, owner in uses:
                before = after[arc.rule]
                behind = self._behind(arc.back, after[owner]) if isinstance(arc, Call) else after[owner]
                after[arc.rule] |= behind
                changed |= before != after[arc.rule]
        return after

    def _behind(self, node: int, after: int) -> int:
        """Words that can follow at a node of a rule, where `after` can follow the rule."""
        return self._first[node] | (after if self._empty[node] else 0)

    def _listed(self, bits: int) -> Iterator[str]:
        return compress(self._sounds, map("1".__eq__, reversed(f"{bits:b}")))
