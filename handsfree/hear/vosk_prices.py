"""What Vosk charges for words, before it has heard anything.

Of the phrases that it is given Vosk 0.3.45 makes an n-gram (`src/language_model.cc`): half of what can
follow a word goes to the followers that it was shown with, by their counts; half to every word, by its count
anywhere. So a word costs more where many may stand than where few may: "sixty seconds" more than "sixteen
seconds", as no "one" or "two" follows "sixteen"; and each figure of a long number costs once more.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from functools import cached_property, lru_cache
from itertools import pairwise

END = ""
"""Stands behind the last word of a phrase."""

SHARE = 0.5
"""Of what may follow, for the followers that were shown; the rest is for every word."""

COUNTED = 0.9
"""What Vosk counts the n-gram for in its scores (`src/recognizer.cc`); the sound counts in full."""

_MOMENTS = 16
"""Moments whose prices are kept."""


class Prices:
    """What words cost an ear that was given these phrases. Nothing is counted before it is asked for."""

    def __init__(self, phrases: Iterable[str]) -> None:
        self._phrases = tuple(phrases)

    def of(self, words: tuple[str, ...]) -> float:
        """Nats that a reading's score is lower for these words, all of which the phrases use."""
        behind = zip((None, *words), (*words, END), strict=True)
        return COUNTED * sum(self._of_word(before, word) for before, word in behind)

    def _of_word(self, before: str | None, word: str) -> float:
        words, pairs, total = self._counts
        anywhere = -math.log(SHARE * words[word] / total)
        if before is None:
            return anywhere
        anywhere -= math.log(1 - SHARE)
        shown = pairs[before, word]
        # Every word but the last was counted with what follows it, be it the end.
        return min(anywhere, -math.log(SHARE * shown / words[before])) if shown else anywhere

    @cached_property
    def _counts(self) -> tuple[Counter[str], Counter[tuple[str, str]], int]:
        spoken = [word for phrase in self._phrases for word in (*phrase.split(), END)]
        # A first word is paired with the end of the phrase before: nobody asks for that pair.
        return Counter(spoken), Counter(pairwise(spoken)), len(spoken)


@lru_cache(maxsize=_MOMENTS)
def prices(phrases: tuple[str, ...]) -> Prices:
    """What they cost, counted once: a session comes back to its moments."""
    return Prices(phrases)
