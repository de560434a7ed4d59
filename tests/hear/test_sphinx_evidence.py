"""What speaks for a sentence is read from what two decoders made of the same sound."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import pytest

from handsfree.hear.sphinx_evidence import SCALE, SCORE_SCALE, Evidence, evidence


class Heard(NamedTuple):
    """A word or a phone as PocketSphinx gives it, both frames included."""

    word: str
    start_frame: int
    end_frame: int
    ascore: float


@dataclass
class Decoder:
    """What a decoder made of a sound: (name, frames, natural log of how well it explains one of them)."""

    found: tuple[tuple[str, int, float], ...]

    def hyp(self) -> object:
        """Anything, where there are words."""
        return self.found or None

    def seg(self) -> list[Heard]:
        """One after the other."""
        segments, start = [], 0
        for name, frames, log in self.found:
            score = math.exp(log * frames / SCORE_SCALE)
            segments.append(Heard(name, start, start + frames - 1, score))
            start += frames
        return segments


def weighed(words: Decoder, phones: Decoder) -> Evidence | None:
    """What speaks for the words."""
    given: tuple[Any, Any] = words, phones
    return evidence(*given)


WORDS = Decoder((("<s>", 10, -1.0), ("no", 20, -3.0), ("thanks", 40, -6.0), ("</s>", 30, -1.0)))
PHONES = Decoder((("SIL", 10, -1.0), ("N", 60, -2.0), ("S", 10, -2.0), ("+SO+", 10, -1.0), ("SIL", 10, -1.0)))


def test_words_are_weighed_against_phones() -> None:
    """The lead counts by frame, over words alone; speech after the last word is told, silence is not."""
    found = weighed(WORDS, PHONES)

    assert found is not None
    assert pytest.approx((-3.0, -4.0, 1 / 7, 0.6)) == (found.lead, found.worst, found.beyond, found.seconds)


@pytest.mark.parametrize("words", [Decoder(()), Decoder((("<s>", 10, -1.0), ("<sil>", 90, -1.0)))])
def test_without_words_nothing_speaks(words: Decoder) -> None:
    """Silence is no sentence."""
    assert weighed(words, PHONES) is None


BEST = Evidence(lead=-2.0, worst=-3.0, beyond=0.0, seconds=1.0)


@pytest.mark.parametrize("worse", [{"lead": -4.0}, {"worst": -9.0}, {"beyond": 0.5}])
def test_confidence_falls_with_each_piece(worse: dict[str, float]) -> None:
    """Phones that explain the sound better, one bad word, speech around the sentence: each counts."""
    assert SCALE.likely(replace(BEST, **worse)) < SCALE.likely(BEST)
