"""Spotting: answers in the midst of other words, each with how sure it is that it was said.

A recogniser that knows little but answers forces other talk into them. Two things tell: what was said clearly
stands in nearly all of its readings; and dictation, which knows no answers and all words, hears it too, or
something like it in the same place.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cached_property

from handsfree.odds import Scale
from handsfree.phrases.judge import SCORE, noise
from handsfree.phrases.places import Place, found
from handsfree.ports import Sentences
from handsfree.signals import UNKNOWN, Alternative, Node, Utterance

VALUE_SURE = 0.6
"""Share of the readings that must hold the same value; else the answer counts, and its value stays open."""

SUREST = 0.999
"""No share counts for more: readings are few."""

LONGEST, MOST_STRAY = 16, 4
"""Letters and stray words that count."""

NEAR_S = 0.2
"""Dictation may hear a word so much earlier or later."""

_TOUCHING_S = 0.05
"""Seconds that the ends of neighbouring words may be off."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What tells whether an answer was said.

    read, dictated: log odds of the share of all readings that hold it, with the grammar and without.
    echoed: the share of its words that a reading without the grammar has in the same place.
    letters: how many it has. stray: words beside answers, and no common ones, in the likeliest reading.
    """

    read: float
    dictated: float
    echoed: float
    letters: float
    stray: float


SCALE = Scale(-4.35, Evidence(read=0.47, dictated=0.66, echoed=3.63, letters=0.66, stray=-1.19))
"""Fitted with `python -m tests.bench.spotting_scale`; docs/accuracy.md shows the table."""

NEEDED = 0.3
"""How sure an answer must be to count; from the same table."""


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


def spotted(
    sentences: Sentences,
    utterance: Utterance,
    reading: Callable[[Node], str],
    common: AbstractSet[str] = frozenset(),
    needed: float = NEEDED,
) -> tuple[Spotted, ...]:
    """Answers that were surely said, in their order. common: words that are often said of other things.

    Of answers in the same words the surest counts, but none that stands within a longer one: "needle goes in"
    in "needle goes in the sharps box".
    """
    chosen: list[Candidate] = []
    every = candidates(sentences, utterance, reading, common)
    sure = [one for one in every if one.sure >= needed]
    for each in sorted(sure, key=lambda one: -one.sure):
        if not any(other.holds(each) for other in sure) and not any(map(each.overlaps, chosen)):
            chosen.append(each)
    return tuple(one.best() for one in sorted(chosen, key=lambda one: one.span))


def candidates(
    sentences: Sentences,
    utterance: Utterance,
    reading: Callable[[Node], str],
    common: AbstractSet[str] = frozenset(),
) -> tuple[Candidate, ...]:
    """Every answer that some reading holds, and more say than deny. What was typed is taken for dictated."""
    dictated = utterance.dictated or utterance.alternatives
    held: dict[tuple[str, int], Candidate] = {}
    denials: dict[str, float] = defaultdict(float)
    for freely, readings in ((False, utterance.alternatives), (True, dictated)):
        for one, share in zip(readings, _shares(readings, noise(utterance)), strict=True):
            its = found(sentences, one.words, common)
            for place, rule, nth in _told(its.places):
                new = Candidate(rule, one, place, its.stray, dictated)
                held.setdefault((rule, nth), new).take(place, share, reading, freely=freely)
            for rule in its.denied:
                denials[rule] += share
    return tuple(one for (rule, _), one in held.items() if one.share > denials[rule])


def _shares(readings: Sequence[Alternative], noise: float) -> list[float]:
    """How likely each reading is, all together 1."""
    scores = [one.score for one in readings]
    shares = SCORE.shares([max(scores), *scores], noise)[1:]
    return [share / sum(shares) for share in shares]


def _told(places: tuple[Place, ...]) -> Iterator[tuple[Place, str, int]]:
    """Each rule that the words of a place belong to, and which time it comes in this reading."""
    times: Counter[str] = Counter()
    for place in places:
        for rule in dict.fromkeys(node.rule for node in place.nodes):
            times[rule] += 1
            yield place, rule, times[rule]


class Candidate:
    """An answer that some reading holds: one is the likeliest of these, and has it in a place.

    said: its words. rules: all that they belong to. span: where they were said. stray: words beside answers.
    """

    def __init__(
        self,
        rule: str,
        one: Alternative,
        place: Place,
        stray: Sequence[str],
        dictated: Sequence[Alternative],
    ) -> None:
        self.rules = frozenset(node.rule for node in place.nodes)
        self.span = place.span(one)
        self._rule = rule
        self._end_s = self.span[1] if one.ends_s else None
        self.said = one.words[place.first : place.behind]
        self._stray = sum(word != UNKNOWN for word in stray)
        self._readings = dictated
        self._read = self._dictated = 0.0
        self._values: dict[str, float] = {}
        self._first: dict[str, tuple[Node, tuple[str, ...]]] = {}

    def take(self, place: Place, share: float, reading: Callable[[Node], str], *, freely: bool) -> None:
        """Count a reading that holds it, by its share. freely: without the grammar."""
        node = next(node for node in place.nodes if node.rule == self._rule)
        also = tuple(dict.fromkeys(other.rule for other in place.nodes if other.rule != self._rule))
        value = reading(node)
        self._first.setdefault(value, (node, also))
        self._values[value] = self._values.get(value, 0.0) + share
        if freely:
            self._dictated += share
        else:
            self._read += share

    @property
    def share(self) -> float:
        """Of the readings that hold it, with the grammar and without: 2 if all do."""
        return self._read + self._dictated

    @property
    def evidence(self) -> Evidence:
        """What tells whether it was said."""
        return Evidence(
            _log_odds(self._read),
            _log_odds(self._dictated),
            max(_echoed(self.said, one, self.span) for one in self._readings),
            min(sum(map(len, self.said)), LONGEST),
            min(self._stray, MOST_STRAY),
        )

    @cached_property
    def sure(self) -> float:
        """How likely it is that it was said."""
        return SCALE.likely(self.evidence)

    def overlaps(self, other: Candidate) -> bool:
        """Whether both are in the same words of the sound, which cannot have said both."""
        return max(self.span[0], other.span[0]) < min(self.span[1], other.span[1]) - _TOUCHING_S

    def holds(self, other: Candidate) -> bool:
        """Whether the other one stands within this longer one."""
        within = self.span[0] - _TOUCHING_S <= other.span[0] and other.span[1] <= self.span[1] + _TOUCHING_S
        return within and len(self.said) > len(other.said)

    def best(self) -> Spotted:
        """With the value that most of its readings hold; where few hold it at all, none is sure."""
        value, most = max(self._values.items(), key=lambda one: one[1])
        return Spotted(*self._first[value], self.sure, most / max(1.0, self.share), self._end_s)


def _echoed(said: tuple[str, ...], one: Alternative, span: tuple[float, float]) -> float:
    """The share of words that a reading has too, in the same place where it tells times."""
    there: Sequence[str] = one.words
    if one.ends_s:
        times = zip(one.words, (0.0, *one.ends_s), one.ends_s, strict=False)
        there = [
            word for word, begin_s, end_s in times if begin_s < span[1] + NEAR_S and end_s > span[0] - NEAR_S
        ]
    return sum(word in there for word in said) / len(said)


def _log_odds(share: float) -> float:
    within = min(max(share, 1 - SUREST), SUREST)
    return math.log(within / (1 - within))
