"""Numbers that an ear cannot tell apart: "ninety minutes" and "nineteen minutes" are the same sounds but for
their stress, as the n of a teen is lost in the m or n behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from handsfree.phrases.numbers import TENS
from handsfree.ports import Sentences
from handsfree.signals import Alternative, Ambiguous, Heard

_TWINS = TENS | {ten: teen for teen, ten in TENS.items()}
_NASALS = ("m", "n")


def with_twin(heard: Heard, sentences: Sentences, alternatives: tuple[Alternative, ...]) -> Heard | Ambiguous:
    """What was heard; with the same sentence of the other number, where the ear proposed that number too.

    How far one leads the other tells nothing: "ninety minutes" came as nineteen with a lead of 3.5 nats.
    """
    proposed = {word for one in alternatives for word in one.words}
    said = next((one.words for one in alternatives if heard.node in sentences.match(one.words)), ())
    for words in _twins(said):
        other = sentences.match(words)
        if other and not proposed.isdisjoint(set(words) - set(said)):
            candidates = (heard, replace(heard, node=other[0]))
            return Ambiguous(heard.text, candidates, heard.confidence)
    return heard


def _twins(words: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The words with one number in place of its twin, for each that is followed by a nasal."""
    for place, (word, following) in enumerate(pairwise(words)):
        if word in _TWINS and following.startswith(_NASALS):
            yield (*words[:place], _TWINS[word], *words[place + 1 :])
