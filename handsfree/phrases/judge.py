"""The judge: of what a recogniser proposes, which sentence of the grammar was said, if any.

    sure enough of one sentence               Heard
    fairly sure that it was one of a few      Ambiguous
    neither                                   NotUnderstood

How sure is a sum of evidence, in log odds; what each piece counts for was fitted to recordings. Whether a
sentence was said at all is asked of the recogniser's scores, with what it expected; which one, of the sound
alone: a number with many neighbours in the grammar is as likely to be meant as one with few.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

from handsfree.odds import Scale
from handsfree.phrases.meaning import by_words
from handsfree.phrases.numbers import holds_number, sound_alike
from handsfree.phrases.opposites import undone
from handsfree.phrases.repair import repairs
from handsfree.ports import Sentences
from handsfree.signals import UNKNOWN, Alternative, Ambiguous, Heard, Node, NotUnderstood, Outcome, Utterance

MOST = 8.0
"""Nats that count: a recogniser gives few alternatives, and noise makes it too sure."""

LONGEST = 8
"""Words that count."""

MOST_UNHEARD_S = 1.5
"""Sound without words that counts: a second more of it tells nothing new."""

CLEAR_DB = 40.0
"""Speech that stands this far over the room is as clear as it can be."""

CLOSE = 3.0
"""A sentence that is behind another by less (nats) may be the one that was said."""

ALIKE = 0.5
"""What a lead counts for, in noise, over a sentence whose numbers sound alike: fifteen and fifty. Of 185
numbers 44 were the other one, and the likeliest scale for them is 2.1 nats, for all else about 1. In quiet
the lead counts in full: of 59 that were heard there one was the other one, by a lead of 4.4 nats."""

REPAIRED = 1.5
"""What a reading loses (nats) where a small word had to be put in or taken out."""

OPPOSITE, LONGER = 1.2, 2.5
"""What a reading that says the opposite of a sentence loses (nats), and for each word that it has more: what
the grammar lacks is seldom said. Of 84 sentences like "the pump is locked" all but two sounded likelier than
their opposite by 0.5 or more, and less likely by 2.6 or more where that was said; by 4 or more where it had a
word more (`python -m tests.bench.opposites`, tuning voices)."""

TRIED = 3
"""Readings that are repaired, the likeliest."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What tells whether a sentence of the grammar was said at all.

    behind: nats by which the likeliest reading, which may be no sentence, is likelier than the best sentence.
    outside: nats by which that leads the readings with speech outside the grammar, or is behind them.
    words: how many it has. noise: tens of decibels that are missing to CLEAR_DB between speech and room.
    unheard: seconds of sound as loud as its words, with none of them in it.
    """

    behind: float
    outside: float
    words: float
    noise: float
    unheard: float


@dataclass(frozen=True, slots=True)
class Lead:
    """How many nats make one reading e times as likely as another.

    sharp: in quiet. blunt: what each 10 dB of noise adds.
    """

    sharp: float
    blunt: float

    def shares(self, sounds: Sequence[float], noise: float) -> list[float]:
        """How likely each one is, if one of them was said; best first, all together 1."""
        nats = self.sharp + self.blunt * noise
        weights = [math.exp((sound - sounds[0]) / nats) for sound in sounds]
        return [weight / sum(weights) for weight in weights]


SCALE = Scale(2.07, Evidence(behind=-0.57, outside=0.47, words=0.16, noise=-0.96, unheard=-6.75))
SOUND = Lead(sharp=0.8, blunt=0.1)
"""Fitted with `python -m tests.bench.judge_scale`; docs/accuracy.md shows the table."""

SCORE = Lead(sharp=1.3, blunt=0.1)
"""Where scores hold what was expected too, or come from an ear that tells itself how sure it is."""


DROWNED_DB = 16.0
"""Where speech stands so little over the room, less than half is heard: of 712 commands in tuning voices 276,
of 1,874 others 1,677."""

FAR_DB, BEHIND_DB = 10.0, 15.0
"""Of an utterance that is so much quieter than what was said lately, somebody else may be the speaker, or
surely is."""


@dataclass(frozen=True, slots=True)
class Needs:
    """Confidence that a sentence needs: any; one with a number, where a mistake costs more; a lone word,
    which comes out of noise and other voices more easily than two; and one from far, which others may have
    said. What they surely have is never heard.
    """

    any: float
    number: float
    lone: float
    far: float

    def of(self, node: Node, below_db: float) -> float:
        """The one for this sentence. below_db: as in Utterance."""
        if len(node.words) == 1:
            return math.inf if below_db >= BEHIND_DB else self.far if below_db >= FAR_DB else self.lone
        return self.number if holds_number(node.words) else self.any


WEIGHED = Needs(any=0.88, number=0.9, lone=0.92, far=0.98)
"""For confidence by SCALE, from the table of thresholds (docs/accuracy.md): with more, a mistake less costs
twenty right answers. Numbers and lone words need more, a lone word from far most."""

TOLD = Needs(any=0.5, number=0.6, lone=0.6, far=0.9)
"""For an ear that tells itself how sure it is of its words; docs/accuracy.md shows the table. More would
refuse people what they say in quiet: all values are read back on such an ear."""


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
    heard, needed = _sure(found, utterance, opposed(sentences, utterance.alternatives))
    if heard[0].confidence >= needed:
        return heard[0]
    close = [one for one, its in zip(heard, found, strict=True) if found[0].sound - its.sound < CLOSE]
    few = sum(one.confidence for one in close)
    if len(close) > 1 and few >= ASKED:
        return Ambiguous(text, tuple(close), few)
    return NotUnderstood(text, heard[0].confidence)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A sentence that may have been said.

    score, sound: the best that any of its readings has, as in Alternative. ends_s, unheard_s: of the words
    that go best with the sound.
    """

    node: Node
    score: float
    sound: float
    ends_s: tuple[float, ...] = ()
    unheard_s: float = 0.0


def candidates(
    sentences: Sentences, utterance: Utterance, means: Callable[[Node], Hashable] = by_words
) -> list[Candidate]:
    """Every meaning that some reading has as a whole sentence, the likeliest first."""
    found: dict[Hashable, Candidate] = {}
    for one in sorted(_readings(sentences, utterance.alternatives), key=lambda one: -one.sound):
        best = found.get(means(one.node), one)
        found[means(one.node)] = replace(best, score=max(best.score, one.score))
    likeliest = [*found.values()]
    told = 1 - (1 - ALIKE) * min(1.0, noise(utterance))
    return sorted((_near(one, likeliest[0], told) for one in likeliest), key=lambda one: -one.sound)


def _near(one: Candidate, best: Candidate, told: float) -> Candidate:
    """As far behind the best as its sound tells. told: what a lead over numbers sounding alike counts for."""
    if not sound_alike(one.node.words, best.node.words):
        return one
    return replace(one, sound=best.sound - told * (best.sound - one.sound))


def evidence(found: Sequence[Candidate], utterance: Utterance) -> Evidence:
    """What tells whether the best of the sentences that were found, or another, was said at all."""
    best = max(one.score for one in found)
    likeliest = max(one.score for one in utterance.alternatives)
    unknown = max((one.score for one in utterance.alternatives if UNKNOWN in one.words), default=-math.inf)
    return Evidence(
        behind=_within(likeliest - best),
        outside=_within(best - unknown),
        words=min(len(found[0].node.words), LONGEST),
        noise=noise(utterance),
        unheard=min(found[0].unheard_s, MOST_UNHEARD_S),
    )


def noise(utterance: Utterance) -> float:
    """Tens of decibels that are missing to CLEAR_DB between speech and room."""
    return max(0.0, CLEAR_DB - utterance.over_room_db) / 10


def drowned(utterance: Utterance) -> bool:
    """Tell whether the room is nearly as loud as what was said."""
    return utterance.over_room_db < DROWNED_DB


def _sure(
    found: list[Candidate], utterance: Utterance, against: tuple[float, ...]
) -> tuple[list[Heard], float]:
    """Each sentence with its confidence, and the confidence that is needed.

    against: sound of what says the opposite of a sentence, if something does.
    """
    told = utterance.alternatives[0].word_confidence
    its = evidence(found, utterance)
    inside, lead, needs = (
        (sum(told) / len(told), SCORE, TOLD) if told else (SCALE.likely(its), SOUND, WEIGHED)
    )
    shares = lead.shares([*(one.sound for one in found), *against], its.noise)
    # Where sound is missing, as large a share of the sentences has been another one, or nearly.
    inside *= 1 - utterance.lost
    heard = [Heard(one.node, inside * share, one.ends_s) for one, share in zip(found, shares, strict=False)]
    return heard, needs.of(found[0].node, utterance.below_db)


def opposed(sentences: Sentences, alternatives: tuple[Alternative, ...]) -> tuple[float, ...]:
    """How likely the likeliest reading is that is the opposite of a sentence, or nothing."""
    return tuple(
        sorted(
            one.sound - OPPOSITE - LONGER * (len(one.words) - len(plain))
            for one in alternatives
            if not sentences.match(one.words)
            for plain in undone(one.words, sentences.words)
            if sentences.match(plain)
        )[-1:]
    )


def _within(nats: float) -> float:
    return max(-MOST, min(MOST, nats))


def _readings(sentences: Sentences, alternatives: tuple[Alternative, ...]) -> Iterator[Candidate]:
    """Sentences, each as often as it is read; and what only a repair makes one, if its sound is likelier.

    Words that sound alike are read one for the other: "thirty for" is "thirty four", and not "thirty".
    """
    known = [one for one in alternatives if one.words and UNKNOWN not in one.words]
    read = [(one, sentences.match(one.words)) for one in known]
    best = max((one.sound for one, whole in read if whole), default=-math.inf)
    for one, whole in read:
        yield from (Candidate(node, one.score, one.sound, one.ends_s, one.unheard_s) for node in whole)
    for one in [one for one, whole in read[:TRIED] if not whole and one.sound - REPAIRED > best]:
        for words in repairs(one.words, sentences.words):
            for node in sentences.match(words)[:1]:
                score, sound = one.score - REPAIRED, one.sound - REPAIRED
                yield Candidate(node, score, sound, one.ends_s, one.unheard_s)
