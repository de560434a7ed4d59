"""Spotting: answers in the midst of other words, each with how sure it is that it was said.

A recogniser's readings of one utterance share its likelihood among them. How sure an answer is, is the share
of those readings that hold it: what was said clearly stands in all of them, what was forced out of other talk
in few.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from handsfree.phrases.judge import CLEAR_DB, SCORE
from handsfree.phrases.opposites import negates
from handsfree.ports import Sentences
from handsfree.signals import REPORT, Alternative, Node, Utterance

NEEDED = 0.3
"""Share of the readings that must hold an answer; from the table of false ticks (docs/accuracy.md)."""

VALUE_SURE = 0.6
"""Share that must hold the same value; else the answer counts, and its value stays open."""

LIGHT = frozenset(("a", "an", "the", "i", "i'm", "i've", "am", "my", "and", "is", "are", "it", "now"))
"""Words that weigh nothing: an answer in the midst of other words needs two that do."""

WEIGHTY = 2

NOT_YET = frozenset(("before", "until", "unless", "if", "without"))
"""Words before an answer that say it is not yet so; those that deny it are known to `opposites`."""

NEAR = 2
"""So many words before an answer can turn it."""


@dataclass(frozen=True, slots=True)
class Spotted:
    """An answer that was heard. also: other rules that the same words belong to.

    sure: of the rule, value_sure: of its value. end_s: where its last word ends, None where that is not told.
    """

    node: Node
    also: tuple[str, ...]
    sure: float
    value_sure: float
    end_s: float | None = None


@dataclass(frozen=True, slots=True)
class _Place:
    first: int
    behind: int
    nodes: tuple[Node, ...]


def spotted(
    sentences: Sentences, utterance: Utterance, reading: Callable[[Node], str]
) -> tuple[Spotted, ...]:
    """Answers that most readings of an utterance hold, in the order in which they were said."""
    scores = [one.score for one in utterance.alternatives]
    noise = max(0.0, CLEAR_DB - utterance.over_room_db) / 10
    best = max(scores)
    shares = SCORE.shares([best, *scores], noise)[1:]
    whole = sum(shares)
    held: dict[tuple[object, ...], _Held] = {}
    for one, share in zip(utterance.alternatives, shares, strict=True):
        for key, place in _keyed(places(sentences, one.words)):
            held.setdefault(key, _Held()).take(one, place, share / whole, reading)
    found = (one.best() for one in held.values())
    return tuple(sorted((one for one in found if one.sure >= NEEDED), key=lambda one: one.end_s or 0.0))


def places(sentences: Sentences, words: tuple[str, ...]) -> tuple[_Place, ...]:
    """Answers among words: those that cover the most, and of these the fewest."""
    ending: dict[int, list[_Place]] = {}
    for first in range(len(words)):
        for place in _beginning(sentences, words, first):
            ending.setdefault(place.behind, []).append(place)
    covered: list[tuple[int, int, tuple[_Place, ...]]] = [(0, 0, ())]
    for behind in range(1, len(words) + 1):
        ways = [covered[-1]]
        for place in ending.get(behind, ()):
            many, fewer, before = covered[place.first]
            ways.append((many + behind - place.first, fewer - 1, (*before, place)))
        covered.append(max(ways, key=lambda one: one[:2]))
    return tuple(place for place in covered[-1][2] if not _turned(words, place.first))


def _turned(words: tuple[str, ...], first: int) -> bool:
    """Whether what stands before an answer says that it is not, or not yet, so: "I have not"."""
    return any(negates(word) or word in NOT_YET for word in words[max(0, first - NEAR) : first])


def _beginning(sentences: Sentences, words: tuple[str, ...], first: int) -> Iterator[_Place]:
    """Every answer that begins with a word."""
    for behind in range(first + 1, len(words) + 1):
        said = words[first:behind]
        standing = sentences.standing(said)
        if not standing.possible:
            return
        if standing.complete and sum(word not in LIGHT for word in said) >= WEIGHTY:
            nodes = tuple(_answers(sentences, said))
            if nodes:
                yield _Place(first, behind, nodes)


def _answers(sentences: Sentences, words: tuple[str, ...]) -> Iterator[Node]:
    for node in sentences.match(words):
        if node.rule == REPORT and len(node.children) == 1:
            yield node.children[0]


def _keyed(found: tuple[_Place, ...]) -> Iterator[tuple[tuple[object, ...], _Place]]:
    """Each with its rules, and which time they come in this reading."""
    times: Counter[tuple[str, ...]] = Counter()
    for place in found:
        rules = tuple(dict.fromkeys(node.rule for node in place.nodes))
        times[rules] += 1
        yield (rules, times[rules]), place


class _Held:
    """What the readings that hold one answer make of it."""

    def __init__(self) -> None:
        self._sure = 0.0
        self._values: dict[str, float] = {}
        self._first: dict[str, tuple[tuple[Node, ...], float | None]] = {}

    def take(self, one: Alternative, place: _Place, share: float, reading: Callable[[Node], str]) -> None:
        value = reading(place.nodes[0])
        end_s = one.ends_s[place.behind - 1] if one.ends_s else None
        self._sure += share
        self._values[value] = self._values.get(value, 0.0) + share
        self._first.setdefault(value, (place.nodes, end_s))

    def best(self) -> Spotted:
        value, sure = max(self._values.items(), key=lambda one: one[1])
        nodes, end_s = self._first[value]
        also = tuple(dict.fromkeys(node.rule for node in nodes[1:] if node.rule != nodes[0].rule))
        return Spotted(nodes[0], also, self._sure, sure, end_s)
