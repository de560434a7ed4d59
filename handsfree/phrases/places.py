"""Places: where answers stand in the midst of other words, by the words alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from handsfree.phrases.opposites import negates, undone
from handsfree.ports import Sentences
from handsfree.signals import REPORT, Alternative, Node

LIGHT = frozenset(("a", "an", "the", "i", "i'm", "i've", "am", "my", "and", "is", "are", "it", "now"))
"""Words that weigh nothing. Common ones weigh 1, all others 2: they are seldom said but of a step."""

LEAST = 2
"""What an answer must weigh; many words in their order do."""

LONG = 8
"""Letters of a word that is an answer in the midst of other words; a shorter one is soon heard in them:
"blown" in "then it's labelled"."""

NOT_YET = frozenset(("before", "until", "till", "unless", "if", "when", "once", "without"))
"""Words before an answer that say it is not yet so; those that deny it are known to `opposites`."""

NEAR = 2
"""So many words before an answer can turn it."""


@dataclass(frozen=True, slots=True)
class Place:
    """An answer in a reading: from which word to before which. nodes: all that the words can mean."""

    first: int
    behind: int
    nodes: tuple[Node, ...]

    def span(self, one: Alternative) -> tuple[float, float]:
        """From where to where it was said: in seconds, or in words where the ear tells no times."""
        if not one.ends_s:
            return float(self.first), float(self.behind)
        return one.ends_s[self.first - 1] if self.first else 0.0, one.ends_s[self.behind - 1]


@dataclass(frozen=True, slots=True)
class Found:
    """What words say. places: answers. denied: rules of those that they turn round, and do not say besides.

    stray: words beside answers, but for common ones.
    """

    places: tuple[Place, ...]
    denied: frozenset[str]
    stray: tuple[str, ...]


def found(sentences: Sentences, words: tuple[str, ...], common: AbstractSet[str] = frozenset()) -> Found:
    """Answers among words. common: those that are often said of other things.

    Denied: "the clamp isn't shut", "before the clamp is shut".
    """
    every = _covering(sentences, words, common)
    places = tuple(one for one in every if not _turned(words, one.first))
    plain = (one for way in undone(words, sentences.words) for one in _covering(sentences, way, common))
    inside = {nth for one in places for nth in range(one.first, one.behind)}
    stray = tuple(word for nth, word in enumerate(words) if nth not in inside and word not in common)
    return Found(places, _rules((*every, *plain)) - _rules(places), stray)


def _rules(places: Iterable[Place]) -> frozenset[str]:
    return frozenset(node.rule for one in places for node in one.nodes)


def _covering(sentences: Sentences, words: tuple[str, ...], common: AbstractSet[str]) -> tuple[Place, ...]:
    """Answers among words: those that cover the most, and of these the fewest."""
    ending: dict[int, list[Place]] = {}
    for first in range(len(words)):
        for place in _beginning(sentences, words, first, common):
            ending.setdefault(place.behind, []).append(place)
    covered: list[tuple[int, int, tuple[Place, ...]]] = [(0, 0, ())]
    for behind in range(1, len(words) + 1):
        ways = [covered[-1]]
        for place in ending.get(behind, ()):
            many, fewer, before = covered[place.first]
            ways.append((many + behind - place.first, fewer - 1, (*before, place)))
        covered.append(max(ways, key=lambda one: one[:2]))
    return covered[-1][2]


def _turned(words: tuple[str, ...], first: int) -> bool:
    """Whether what stands before an answer says that it is not, or not yet, so: "I have not"."""
    return any(negates(word) or word in NOT_YET for word in words[max(0, first - NEAR) : first])


def _beginning(
    sentences: Sentences, words: tuple[str, ...], first: int, common: AbstractSet[str]
) -> Iterator[Place]:
    """Every answer that begins with a word."""
    for behind in range(first + 1, len(words) + 1):
        said = words[first:behind]
        standing = sentences.standing(said)
        if not standing.possible:
            return
        if standing.complete and _weight(said, common) >= LEAST:
            nodes = tuple(node for node in _answers(sentences, said) if said == words or _bears(said, node))
            if nodes:
                yield Place(first, behind, nodes)


def _weight(said: tuple[str, ...], common: AbstractSet[str]) -> int:
    words = sum(0 if word in LIGHT else 1 if word in common else 2 for word in said)
    return max(words, len(said) - 1)


def _bears(said: tuple[str, ...], node: Node) -> bool:
    """Whether an answer is enough among other words: it has several, or a long one that was heard as one."""
    return min(len(said), len(node.words)) > 1 or (len(said) == 1 and len(said[0]) >= LONG)


def _answers(sentences: Sentences, words: tuple[str, ...]) -> Iterator[Node]:
    for node in sentences.match(words):
        if node.rule == REPORT and len(node.children) == 1:
            yield node.children[0]
