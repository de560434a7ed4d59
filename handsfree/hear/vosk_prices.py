"""What Vosk charges for words, before it has heard anything.

Of the phrases that it is given Vosk 0.3.45 makes an n-gram (`src/language_model.cc`): half of what can
follow a word goes to the followers that it was shown with, by their counts; half to every word, by its count
anywhere. So a word costs more where many may stand than where few may: "sixty seconds" more than "sixteen
seconds", as no "one" or "two" follows "sixteen"; and each figure of a long number costs once more.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import cached_property, lru_cache
from itertools import pairwise
from sys import intern

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
        often = self._often
        anywhere = -math.log(SHARE * often[word] / self._total)
        if before is None:
            return anywhere
        anywhere -= math.log(1 - SHARE)
        shown = self._behind[before].get(word, 0)
        # Every word but the last was counted with what follows it, be it the end.
        return min(anywhere, -math.log(SHARE * shown / often[before])) if shown else anywhere

    @cached_property
    def _behind(self) -> Mapping[str, Mapping[str, int]]:
        """By word, how often each stands behind it; behind the end of a phrase stands the next one.

        Each word is kept once: those of a practice run stand side by side in 200,000 ways.
        """
        behind: dict[str, dict[str, int]] = defaultdict(dict)
        for phrase in self._phrases:
            for before, word in pairwise((END, *map(intern, phrase.split()), END)):
                followers = behind[before]
                followers[word] = followers.get(word, 0) + 1
        return behind

    @cached_property
    def _often(self) -> Mapping[str, int]:
        """How often each word stands anywhere."""
        return {word: sum(followers.values()) for word, followers in self._behind.items()}

    @cached_property
    def _total(self) -> int:
        return sum(self._often.values())


@lru_cache(maxsize=_MOMENTS)
def prices(phrases: tuple[str, ...]) -> Prices:
    """What they cost, counted once: a session comes back to its moments."""
    return Prices(phrases)
