"""Few phrases for a recogniser that learns from them which word may follow which (Vosk's is a bigram)."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import assert_never

from handsfree.phrases.network import RULE_END, Arc, Begin, Call, End, Jump, Network, Say, Skip

EDGE = ""
"""What stands before the first and behind the last word of a sentence."""


@dataclass(frozen=True, slots=True)
class Pairs:
    """follows: for each word, and EDGE, the words (and EDGE) that may come next, in order of the grammar."""

    follows: dict[str, tuple[str, ...]]

    @property
    def words(self) -> frozenset[str]:
        """Every word in a pair."""
        return frozenset(self.follows) - {EDGE}


def pairs(network: Network) -> Pairs:
    """All pairs of neighbouring words in sentences of the network, exactly; rules are never unfolded."""
    return _Neighbours(network).pairs()


class _Neighbours:
    """Sets of words are bits of an integer; bit 0 is EDGE. All grow until nothing changes."""

    def __init__(self, network: Network) -> None:
        self._net = network
        said = (arc.sound for arcs in network.arcs for arc in arcs if isinstance(arc, Say))
        self._sounds = [EDGE, *dict.fromkeys(said)]
        self._bits = {sound: 1 << number for number, sound in enumerate(self._sounds)}
        self._first = [0] * len(network.arcs)
        self._empty = [False] * len(network.arcs)
        self._empty[RULE_END] = True
        self._after = dict.fromkeys(network.entries, 0)

    def pairs(self) -> Pairs:
        self._settle_firsts()
        self._settle_afters()
        follows = dict.fromkeys(self._sounds, 0)
        start = self._net.start
        follows[EDGE] = self._first[start] | (self._bits[EDGE] if self._empty[start] else 0)
        for arcs, owner in zip(self._net.arcs, self._net.owners, strict=True):
            for arc in arcs:
                if isinstance(arc, Say):
                    follows[arc.sound] |= self._behind(arc.to, owner)
        return Pairs({sound: tuple(self._listed(bits)) for sound, bits in follows.items()})

    def _settle_firsts(self) -> None:
        changed = True
        while changed:
            changed = False
            for node, arcs in enumerate(self._net.arcs):
                before = (self._first[node], self._empty[node])
                for arc in arcs:
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

    def _settle_afters(self) -> None:
        uses = [
            (arc, owner)
            for arcs, owner in zip(self._net.arcs, self._net.owners, strict=True)
            for arc in arcs
            if isinstance(arc, Call | Jump)
        ]
        changed = True
        while changed:
            changed = False
            for arc, owner in uses:
                before = self._after[arc.rule]
                if isinstance(arc, Call):
                    self._after[arc.rule] |= self._behind(arc.back, owner)
                else:
                    self._after[arc.rule] |= self._after[owner] if arc.within else self._bits[EDGE]
                changed |= before != self._after[arc.rule]

    def _behind(self, node: int, owner: str) -> int:
        """Words that can follow at a node of the rule `owner`, what comes behind the rule included."""
        return self._first[node] | (self._after[owner] if self._empty[node] else 0)

    def _listed(self, bits: int) -> Iterator[str]:
        return (sound for number, sound in enumerate(self._sounds) if bits >> number & 1)


def phrases(allowed: Pairs) -> tuple[str, ...]:
    """Few phrases that use every allowed pair and no other, from an allowed first word to an allowed last."""
    walker = _Walker(allowed)
    walks: list[list[str]] = []
    while walker.left():
        walks.append(walker.walk())
    return tuple(dict.fromkeys(" ".join(walk) for walk in walks if walk))


class _Walker:
    """The words are the junctions of a map, the pairs its one-way streets: every street is to be walked.

    Vosk counts how often it is shown a pair, so streets that must be walked again are taken in turn.
    """

    def __init__(self, allowed: Pairs) -> None:
        self._unwalked = {word: deque(after) for word, after in allowed.follows.items()}
        self._streets = {word: deque(after) for word, after in allowed.follows.items()}
        self._new = {word for word, after in self._unwalked.items() if after}

    def left(self) -> bool:
        """Tell whether streets are left."""
        return bool(self._new)

    def walk(self) -> list[str]:
        """One phrase: new streets where there are any, else the shortest way to some, else home."""
        walk: list[str] = []
        here = EDGE
        while True:
            if here in self._new:
                walk.append(self._street(here))
            else:
                walk += self._way(here, self._new) or self._way(here, {EDGE})
            here = walk[-1]
            if here == EDGE:
                return walk[:-1]

    def _street(self, here: str) -> str:
        """The next new street from here, which is new no longer."""
        to = self._unwalked[here].popleft()
        if not self._unwalked[here]:
            self._new.remove(here)
        return to

    def _way(self, here: str, goals: set[str]) -> list[str]:
        """The words on the shortest way to a goal, the goal included; empty where there is none."""
        came: dict[str, str] = {}
        waiting = deque([here])
        while waiting:
            word = waiting.popleft()
            for follower in self._streets[word]:
                if follower not in came:
                    came[follower] = word
                    if follower in goals:
                        return self._taken(came, follower, here)
                    if follower != EDGE:
                        waiting.append(follower)
        return []

    def _taken(self, came: dict[str, str], last: str, here: str) -> list[str]:
        """The way found, its streets put behind the others."""
        way = [last]
        while way[-1] != here or len(way) == 1:
            street = way[-1]
            way.append(came[street])
            self._streets[way[-1]].remove(street)
            self._streets[way[-1]].append(street)
        return way[-2::-1]
