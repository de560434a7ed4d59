"""The judge: of what a recogniser proposes, which sentence of the grammar was said, if any.

    sure enough of one sentence               Heard
    fairly sure that it was one of a few      Ambiguous
    neither                                   NotUnderstood

How sure is a sum of evidence, in log odds; what each piece counts for was fitted to recordings.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass

from handsfree.phrases.meaning import by_words
from handsfree.phrases.numbers import holds_number
from handsfree.phrases.opposites import undone
from handsfree.phrases.repair import repairs
from handsfree.ports import Sentences
from handsfree.signals import Alternative, Ambiguous, Heard, Node, NotUnderstood, Outcome, Utterance

UNKNOWN = "[unk]"
"""What a recogniser writes for speech outside the grammar."""

MOST = 8.0
"""Nats that count: a recogniser gives few alternatives, and noise makes it too sure."""

LONGEST = 8
"""Words that count."""

CLEAR_DB = 40.0
"""Speech that stands this far over the room is as clear as it can be."""

CLOSE = 3.0
"""A sentence that is behind another by less (nats) may be the one that was said."""

REPAIRED = 1.5
"""What a reading loses (nats) where a small word had to be put in or taken out."""

OPPOSITE = 2.0
"""What a reading that says the opposite of a sentence loses (nats): what the grammar lacks is seldom said. Of
84 sentences like "the pump is locked" each led by 0.6 or more where it was said, and its opposite by 0.9 or
more where that was (`python -m tests.bench.opposites`, tuning voices)."""

TRIED = 3
"""Readings that are repaired, the likeliest."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What tells whether a sentence of the grammar was said at all.

    behind: nats by which the likeliest reading, which may be no sentence, is likelier than the best sentence.
    outside: nats by which that leads the readings with speech outside the grammar, or is behind them.
    words: how many it has. noise: tens of decibels that are missing to CLEAR_DB between speech and room.
    """

    behind: float
    outside: float
    words: float
    noise: float


@dataclass(frozen=True, slots=True)
class Scale:
    """What evidence counts for: log odds are base + the sum of each piece times its weight.

    sharp, blunt: a lead of so many nats makes one sentence e times as likely as another; in quiet, and what
    each 10 dB of noise adds.
    """

    base: float
    behind: float
    outside: float
    words: float
    noise: float
    sharp: float
    blunt: float

    def inside(self, evidence: Evidence) -> float:
        """How likely it is that a sentence of the grammar was said."""
        odds = self.base + self.behind * evidence.behind + self.outside * evidence.outside
        odds += self.words * evidence.words + self.noise * evidence.noise
        return 1 / (1 + math.exp(-odds))

    def shares(self, scores: Sequence[float], noise: float) -> list[float]:
        """How likely each sentence is, if one was said; best first, all together 1."""
        nats = self.sharp + self.blunt * noise
        weights = [math.exp((score - scores[0]) / nats) for score in scores]
        return [weight / sum(weights) for weight in weights]


SCALE = Scale(base=-0.07, behind=-0.82, outside=0.49, words=0.33, noise=-0.64, sharp=1.3, blunt=0.1)
"""Fitted with `python -m tests.bench.judge_scale`; docs/accuracy.md shows the table."""


@dataclass(frozen=True, slots=True)
class Needs:
    """Confidence that a sentence needs: any; one with a number, where a mistake costs more; a lone word,
    which comes out of noise and other voices more easily than two.
    """

    any: float
    number: float
    lone: float

    def of(self, node: Node) -> float:
        """The one for this sentence."""
        if len(node.words) == 1:
            return self.lone
        return self.number if holds_number(node.words) else self.any


WEIGHED = Needs(any=0.85, number=0.88, lone=0.95)
"""For confidence by SCALE, from the table of thresholds (docs/accuracy.md): the least at which no words were
taken for others in quiet and at 15 dB; numbers and lone words more."""

TOLD = Needs(any=0.5, number=0.6, lone=0.6)
"""For an ear that tells itself how sure it is of its words. Set so that the fixtures pass: no table stands
behind it yet (`python -m tests.bench.sphinx_scale` makes one)."""


ASKED = 0.6
"""Confidence from which on it is asked which of a few was said: a question costs little, but talk that was
not meant for the program is not to be asked about."""


def judge(
    sentences: Sentences, utterance: Utterance, *, means: Callable[[Node], Hashable] = by_words
) -> Outcome:
    """Decide what was said. means: what two readings must share to mean the same."""
    text = " ".join(word for word in utterance.alternatives[0].words if word != UNKNOWN)
    found = candidates(sentences, utterance, means)
    if not found:
        return NotUnderstood(text)
    heard, needed = _sure(found, utterance, _against(sentences, utterance.alternatives))
    if heard[0].confidence >= needed:
        return heard[0]
    close = [one for one, its in zip(heard, found, strict=True) if found[0].score - its.score < CLOSE]
    few = sum(one.confidence for one in close)
    if len(close) > 1 and few >= ASKED:
        return Ambiguous(text, tuple(close), few)
    return NotUnderstood(text, heard[0].confidence)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A sentence that may have been said; of its likeliest reading the score, and when its words ended."""

    node: Node
    score: float
    ends_s: tuple[float, ...] = ()


def candidates(
    sentences: Sentences, utterance: Utterance, means: Callable[[Node], Hashable] = by_words
) -> list[Candidate]:
    """Every meaning that some reading has as a whole sentence, the likeliest first."""
    found: dict[Hashable, Candidate] = {}
    for one in sorted(_readings(sentences, utterance.alternatives), key=lambda one: -one.score):
        found.setdefault(means(one.node), one)
    return list(found.values())


def evidence(best: Candidate, utterance: Utterance) -> Evidence:
    """What tells whether the best sentence, or another, was said at all."""
    likeliest = max(one.score for one in utterance.alternatives)
    unknown = max((one.score for one in utterance.alternatives if UNKNOWN in one.words), default=-math.inf)
    return Evidence(
        behind=_within(likeliest - best.score),
        outside=_within(best.score - unknown),
        words=min(len(best.node.words), LONGEST),
        noise=max(0.0, CLEAR_DB - utterance.over_room_db) / 10,
    )


def _sure(
    found: list[Candidate], utterance: Utterance, against: tuple[float, ...]
) -> tuple[list[Heard], float]:
    """Each sentence with its confidence, and the confidence that is needed.

    against: score of what says the opposite of a sentence, if something does.
    """
    told = utterance.alternatives[0].word_confidence
    its = evidence(found[0], utterance)
    inside, needs = (sum(told) / len(told), TOLD) if told else (SCALE.inside(its), WEIGHED)
    shares = SCALE.shares([*(one.score for one in found), *against], its.noise)
    # Where sound is missing, as large a share of the sentences has been another one, or nearly.
    inside *= 1 - utterance.lost
    heard = [Heard(one.node, inside * share, one.ends_s) for one, share in zip(found, shares, strict=False)]
    return heard, needs.of(found[0].node)


def _against(sentences: Sentences, alternatives: tuple[Alternative, ...]) -> tuple[float, ...]:
    """Score of the likeliest reading that is the opposite of a sentence, or nothing."""
    for one in sorted(alternatives, key=lambda one: -one.score):
        if not sentences.match(one.words) and any(map(sentences.match, undone(one.words, sentences.words))):
            return (one.score - OPPOSITE,)
    return ()


def _within(nats: float) -> float:
    return max(-MOST, min(MOST, nats))


def _readings(sentences: Sentences, alternatives: tuple[Alternative, ...]) -> Iterator[Candidate]:
    """Sentences, each as often as it is read."""
    for rank, one in enumerate(alternatives):
        if not one.words or UNKNOWN in one.words:
            continue
        whole = sentences.match(one.words)
        yield from (Candidate(node, one.score, one.ends_s) for node in whole)
        if not whole and rank < TRIED:
            for words in repairs(one.words, sentences.words):
                for node in sentences.match(words)[:1]:
                    yield Candidate(node, one.score - REPAIRED, one.ends_s)
