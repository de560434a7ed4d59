"""Near misses: a small word that was lost, put in, or said twice. Numbers are never touched."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from handsfree.phrases.numbers import holds_number

SMALL = ("the", "is", "are", "it", "it's", "that", "this", "of", "to", "for", "please")
"""Words that recognisers lose, or find in a breath; none that turns a sentence round."""


def repairs(words: tuple[str, ...], known: AbstractSet[str]) -> Iterator[tuple[str, ...]]:
    """Yield `words` with a small word less, with a word no longer said twice, or with a small word more.

    known: the words of the grammar; others need not be tried.
    """
    for place, word in enumerate(words):
        twice = place > 0 and words[place - 1] == word and not holds_number((word,))
        if len(words) > 1 and (word in SMALL or twice):
            yield words[:place] + words[place + 1 :]
    for small in SMALL:
        if small in known:
            for place in range(len(words) + 1):
                # "Forty" may be "for two": nothing is put before a number.
                if not holds_number(words[place : place + 1]):
                    yield (*words[:place], small, *words[place:])
