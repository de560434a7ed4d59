"""The judge: of what a recogniser proposes, which sentence of the grammar was said, if any."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass

from handsfree.phrases.meaning import by_words
from handsfree.ports import Sentences
from handsfree.signals import Alternative, Ambiguous, Heard, Node, NotUnderstood, Outcome, Utterance

UNKNOWN = "[unk]"
"""What a recogniser writes for speech outside the grammar."""


@dataclass(frozen=True, slots=True)
class Scale:
    """What score differences of one recogniser are worth; all in units of natural logs.

    temperature: scores are divided by it before they count as log likelihoods.
    offset, slope: confidence is the logistic of offset + slope * log odds.
    most: log odds are cut off here, on both sides.
    margin: log odds by which a sentence must lead the next one of another meaning.
    unknown_lead: log odds by which speech outside the grammar must lead to silence every sentence.
    """

    temperature: float = 2.0
    offset: float = 0.5
    slope: float = 0.8
    most: float = 6.0
    margin: float = 1.0
    unknown_lead: float = 4.0


STANDARD = Scale()
"""Set by hand until fitted to recordings; see tests/voice."""


@dataclass(frozen=True, slots=True)
class _Candidate:
    """A meaning: its best reading and the probability of all alternatives that have it."""

    node: Node
    probability: float


def judge(
    sentences: Sentences,
    utterance: Utterance,
    *,
    margins: Mapping[str, float] | None = None,
    means: Callable[[Node], Hashable] = by_words,
    scale: Scale = STANDARD,
) -> Outcome:
    """Decide what was said.

    margins: by public rule, the lead that its sentences need, in place of the scale's.
    means: what two readings must share to mean the same.
    """
    weighed = _weighed(utterance.alternatives, scale)
    candidates = _candidates(sentences, weighed, means)
    text = " ".join(word for word in utterance.alternatives[0].words if word != UNKNOWN)
    if not candidates or _drowned(weighed, candidates[0], scale):
        return NotUnderstood(text)
    best, *others = candidates
    needed = (margins or {}).get(best.node.rule, scale.margin)
    close = [other for other in others if math.log(best.probability / other.probability) < needed]
    if close:
        heard = tuple(_heard(one, scale) for one in (best, *close))
        return Ambiguous(text, heard, heard[0].confidence)
    return _heard(best, scale)


_Weighed = list[tuple[Alternative, float]]


def _weighed(alternatives: tuple[Alternative, ...], scale: Scale) -> _Weighed:
    """Each alternative with its probability, the sum of all being 1."""
    top = max(one.score for one in alternatives)
    likelihoods = [math.exp((one.score - top) / scale.temperature) for one in alternatives]
    return [
        (one, max(each / sum(likelihoods), 1e-12))
        for one, each in zip(alternatives, likelihoods, strict=True)
    ]


def _candidates(
    sentences: Sentences, weighed: _Weighed, means: Callable[[Node], Hashable]
) -> list[_Candidate]:
    """Every meaning that some alternative has as a whole sentence, the likeliest first."""
    found: dict[Hashable, _Candidate] = {}
    for alternative, probability in weighed:
        if UNKNOWN in alternative.words:
            continue
        readings = {means(node): node for node in reversed(sentences.match(alternative.words))}
        for meaning, node in readings.items():
            known = found.get(meaning, _Candidate(node, 0.0))
            found[meaning] = _Candidate(known.node, known.probability + probability)
    return sorted(found.values(), key=lambda one: -one.probability)


def _drowned(weighed: _Weighed, best: _Candidate, scale: Scale) -> bool:
    """Tell whether speech outside the grammar is far likelier than the best sentence."""
    outside = max((probability for one, probability in weighed if UNKNOWN in one.words), default=0.0)
    return outside > 0 and math.log(outside / best.probability) > scale.unknown_lead


def _heard(candidate: _Candidate, scale: Scale) -> Heard:
    rest = max(1 - candidate.probability, 1e-12)
    odds = max(-scale.most, min(scale.most, math.log(candidate.probability / rest)))
    return Heard(candidate.node, 1 / (1 + math.exp(-(scale.offset + scale.slope * odds))))
