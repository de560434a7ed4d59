"""Spotting: answers in the midst of other words, each with how sure it is that it was said.

A recogniser's readings of one utterance share its likelihood among them. How sure an answer is, is the share
of those readings that hold it: what was said clearly stands in all of them, what was forced out of other talk
in few.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from handsfree.phrases.judge import SCORE, noise
from handsfree.phrases.opposites import negates
from handsfree.ports import Sentences
from handsfree.signals import REPORT, Alternative, Node, Utterance

NEEDED = 0.5
"""Share of the readings that must hold an answer; from the table of false ticks (docs/accuracy.md)."""

NEEDED_OF_FEW = 0.9
"""The same of an answer that weighs little: "right hand" is soon heard in "right and then"."""

VALUE_SURE = 0.6
"""Share that must hold the same value; else the answer counts, and its value stays open."""

EXPECTED = 0.6
"""Nats by which an answer is likelier than other talk, for each weight it has: a trainee talks of steps."""

OVERPRICED = 0.1
"""Share of a reading's price that it gets back: a recogniser that learnt sentences of the grammar charges too
much for other talk, and makes "next ringers normal saline" of "next thing is normal saline"."""

SHORT, DROWNED = 2, 3.0
"""An answer of so few words is not taken where readings without it sound likelier by so many nats: "no air"
was cheaper for the recogniser than "now where", and five nats less likely for its sound."""

LIGHT = frozenset(("a", "an", "the", "i", "i'm", "i've", "am", "my", "and", "is", "are", "it", "now"))
"""Words that weigh nothing. Common ones weigh 1, all others 2: they are seldom said but of a step."""

LEAST, FULL = 2, 3
"""What an answer must weigh in the midst of other words; and from what weight on it is no longer little."""

LONG = 8
"""Letters of a word that is an answer in the midst of other words; a shorter one is soon heard in them:
"blown" in "then it's labelled"."""

NOT_YET = frozenset(("before", "until", "till", "unless", "if", "when", "once", "without"))
"""Words before an answer that say it is not yet so; those that deny it are known to `opposites`."""

NEAR = 2
"""So many words before an answer can turn it."""

_TOUCHING = 0.05
"""Seconds that the ends of neighbouring words may be off."""


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
    weight: int

    def span(self, one: Alternative) -> tuple[float, float]:
        """From where to where it was said: in seconds, or in words where the ear tells no times."""
        if not one.ends_s:
            return float(self.first), float(self.behind)
        return one.ends_s[self.first - 1] if self.first else 0.0, one.ends_s[self.behind - 1]


def spotted(
    sentences: Sentences,
    utterance: Utterance,
    reading: Callable[[Node], str],
    common: AbstractSet[str] = frozenset(),
) -> tuple[Spotted, ...]:
    """Answers that most readings of an utterance hold, in the order in which they were said.

    common: words that are often said of other things. Of answers in the same words the surest counts.
    """
    found = [(one, places(sentences, one.words, common)) for one in utterance.alternatives]
    held: dict[tuple[str, int], _Held] = {}
    for (one, its), share in zip(found, _shares(utterance, found), strict=True):
        for place, rule, nth in _told(its):
            held.setdefault((rule, nth), _Held(rule)).take(one, place, share, reading)
    chosen: list[_Held] = []
    for each in sorted(held.values(), key=lambda one: -one.sure):
        if not each.is_sure or each.is_drowned(utterance.alternatives):
            continue
        if not any(map(each.overlaps, chosen)):
            chosen.append(each)
    return tuple(one.best() for one in sorted(chosen, key=lambda one: one.span))


def _shares(utterance: Utterance, found: Sequence[tuple[Alternative, tuple[_Place, ...]]]) -> list[float]:
    """How likely each reading is, all together 1."""
    scores = [
        one.score + OVERPRICED * one.price + EXPECTED * sum(place.weight for place in its)
        for one, its in found
    ]
    shares = SCORE.shares([max(scores), *scores], noise(utterance))[1:]
    return [share / sum(shares) for share in shares]


def places(
    sentences: Sentences, words: tuple[str, ...], common: AbstractSet[str] = frozenset()
) -> tuple[_Place, ...]:
    """Answers among words: those that cover the most, and of these the fewest."""
    ending: dict[int, list[_Place]] = {}
    for first in range(len(words)):
        for place in _beginning(sentences, words, first, common):
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


def _beginning(
    sentences: Sentences, words: tuple[str, ...], first: int, common: AbstractSet[str]
) -> Iterator[_Place]:
    """Every answer that begins with a word."""
    for behind in range(first + 1, len(words) + 1):
        said = words[first:behind]
        standing = sentences.standing(said)
        if not standing.possible:
            return
        weight = _weight(said, common)
        if standing.complete and weight >= LEAST:
            alone = said == words
            nodes = tuple(node for node in _answers(sentences, said) if alone or _bears(said, node))
            if nodes:
                yield _Place(first, behind, nodes, weight)


def _weight(said: tuple[str, ...], common: AbstractSet[str]) -> int:
    """What words weigh, and many in their order no less than those few that weigh."""
    words = sum(0 if word in LIGHT else 1 if word in common else 2 for word in said)
    return max(words, min(len(said) - 1, FULL))


def _bears(said: tuple[str, ...], node: Node) -> bool:
    """Whether an answer is enough among other words: it has several, or a long one that was heard as one."""
    return min(len(said), len(node.words)) > 1 or (len(said) == 1 and len(said[0]) >= LONG)


def _answers(sentences: Sentences, words: tuple[str, ...]) -> Iterator[Node]:
    for node in sentences.match(words):
        if node.rule == REPORT and len(node.children) == 1:
            yield node.children[0]


def _told(found: tuple[_Place, ...]) -> Iterator[tuple[_Place, str, int]]:
    """Each rule that the words of a place belong to, and which time it comes in this reading."""
    times: Counter[str] = Counter()
    for place in found:
        for rule in dict.fromkeys(node.rule for node in place.nodes):
            times[rule] += 1
            yield place, rule, times[rule]


class _Held:
    """What the readings that hold one answer make of it. span: where it was said, by the first of them."""

    def __init__(self, rule: str) -> None:
        self._rule = rule
        self.sure = 0.0
        self.span = (0.0, 0.0)
        self._weight = self._length = 0
        self._holders = set[Alternative]()
        self._values: dict[str, float] = {}
        self._first: dict[str, tuple[Node, tuple[str, ...], float | None]] = {}

    def take(self, one: Alternative, place: _Place, share: float, reading: Callable[[Node], str]) -> None:
        node = next(node for node in place.nodes if node.rule == self._rule)
        also = tuple(dict.fromkeys(other.rule for other in place.nodes if other.rule != self._rule))
        value = reading(node)
        if not self._first:
            self.span, self._weight, self._length = place.span(one), place.weight, len(node.words)
        self.sure += share
        self._holders.add(one)
        self._values[value] = self._values.get(value, 0.0) + share
        self._first.setdefault(value, (node, also, self.span[1] if one.ends_s else None))

    @property
    def is_sure(self) -> bool:
        """Whether enough of the readings hold it."""
        return self.sure >= (NEEDED if self._weight >= FULL else NEEDED_OF_FEW)

    def is_drowned(self, alternatives: Sequence[Alternative]) -> bool:
        """Whether it is short, and other talk sounds likelier by far."""
        most = max(one.sound for one in self._holders) + DROWNED
        # None of those that hold it is likelier than the likeliest of them.
        return self._length <= SHORT and any(one.sound > most for one in alternatives)

    def overlaps(self, other: _Held) -> bool:
        """Whether both are in the same words of the sound, which cannot have said both."""
        return max(self.span[0], other.span[0]) < min(self.span[1], other.span[1]) - _TOUCHING

    def best(self) -> Spotted:
        value, sure = max(self._values.items(), key=lambda one: one[1])
        node, also, end_s = self._first[value]
        return Spotted(node, also, self.sure, sure, end_s)
