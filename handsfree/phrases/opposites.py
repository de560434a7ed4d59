"""Sentences turned into their opposite: what an ear must be able to hear, lest it take them for the others.

A recogniser that is given "locked" alone hears "unlocked" as "locked", and "isn't" as "is". So it is given
both, and the judge knows which readings say the opposite of a sentence.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from functools import cache
from itertools import pairwise

from handsfree.phrases.spelling import Knows

_AUXILIARIES = (
    "is",
    "are",
    "was",
    "were",
    "has",
    "have",
    "can",
    "will",
    "do",
    "does",
    "did",
    "should",
    "must",
)

_SHORT = {"can": "can't", "will": "won't"}
"""The others end in n't."""

_LATIN = {
    word[len(prefix) :]: word
    for prefix, words in {
        "in": "accurate active adequate appropriate capable complete correct secure sufficient valid visible",
        "im": "balanced mobile perfect possible probable proper pure",
        "ir": "regular relevant replaceable reversible",
        "dis": "abled agree approve arm assemble connect continue engage infect mount",
    }.items()
    for word in (prefix + rest for rest in words.split())
}
"""Words that are turned by another prefix than un-."""

_FIRST = (("don't",), ("do", "not"), ("never",), ("not",))
"""What turns a sentence round that it stands before."""

_SHORTEST = 4
"""Letters of a word that un- may stand before: not "til" or "it"."""


def turned(phrases: Iterable[str], follows: Mapping[str, Iterable[str]], knows: Knows) -> Iterator[str]:
    """Yield phrases with words turned into their opposites, or "not" or "never" before the first.

    No more of them than is needed for each opposite to stand beside each of its neighbours, which are never
    turned too. follows: what stands behind each word in the phrases, as in `Pairs`. knows: which words the
    ear can hear.
    """
    beside = defaultdict(set, {word: set(after) for word, after in follows.items()})
    first_words = [words for words in _FIRST if all(map(knows, words))]

    @cache
    def opposites(word: str) -> tuple[tuple[str, ...], ...]:
        found = [words for words in _opposites(word) if all(map(knows, words))]
        # Where the ear lacks "unclamped", it hears "un clamped".
        return tuple(words for words in found if words[0] != "un" or (f"un{word}",) not in found)

    for phrase in phrases:
        words = ("", *phrase.split(), "")
        wanted: list[tuple[int, tuple[str, ...]]] = []
        for at, word in enumerate(words[1:-1], start=1):
            firsts = tuple((*first, word) for first in first_words) if at == 1 else ()
            for opposite in opposites(word) + firsts:
                if _brings(beside, (words[at - 1], *opposite, words[at + 1])):
                    wanted.append((at, opposite))
        while wanted:
            turns, wanted = _apart(wanted)
            spoken = list(words)
            for at, opposite in turns.items():
                spoken[at] = " ".join(opposite)
            yield " ".join(spoken[1:-1])


def _brings(beside: Mapping[str, set[str]], words: Iterable[str]) -> bool:
    """Note what stands behind each of the words; tell whether any two of them never stood side by side."""
    new = False
    for before, after in pairwise(words):
        if after not in beside[before]:
            beside[before].add(after)
            new = True
    return new


def _apart(
    wanted: list[tuple[int, tuple[str, ...]]],
) -> tuple[dict[int, tuple[str, ...]], list[tuple[int, tuple[str, ...]]]]:
    """As many turns as fit into one phrase, none beside another; and those that are left."""
    turns: dict[int, tuple[str, ...]] = {}
    left = []
    for at, opposite in wanted:
        if turns.keys().isdisjoint((at - 1, at)):
            turns[at] = opposite
        else:
            left.append((at, opposite))
    return turns, left


def _opposites(word: str) -> Iterator[tuple[str, ...]]:
    """Words for the opposite of one; some of them no words at all."""
    if word in _AUXILIARIES:
        yield (_SHORT.get(word, f"{word}n't"),)
        yield word, "not"
    if word in _LATIN:
        yield (_LATIN[word],)
    elif len(word) >= _SHORTEST and word.isalpha():
        yield (f"un{word}",)
        if word.endswith("ed"):
            yield "un", word
            yield (f"dis{word}",)


def negates(word: str) -> bool:
    """Whether it turns round what is said behind it."""
    return word in ("not", "never", "un") or word.endswith("n't")


def undone(words: tuple[str, ...], known: AbstractSet[str]) -> Iterator[tuple[str, ...]]:
    """Yield the sentences of which `words` may be the opposite. known: the words of the grammar."""
    for first in _FIRST:
        if words[: len(first)] == first:
            yield words[len(first) :]
    for at in range(len(words)):
        for length in (1, 2):
            spoken = words[at : at + length]
            for word in _undone(spoken):
                if word in known:
                    yield (*words[:at], word, *words[at + length :])


def _undone(spoken: tuple[str, ...]) -> Iterator[str]:
    match spoken:
        case (auxiliary, "not"):
            yield auxiliary
        case ("un", word) if word.endswith("ed"):
            yield word
        case (word,):
            yield from (one for one in _roots(word) if spoken in _opposites(one))
        case _:
            pass


def _roots(word: str) -> Iterator[str]:
    """Of what a single word could be the opposite."""
    yield from (plain for plain, short in _SHORT.items() if short == word)
    yield from (word.removesuffix("n't"), word[2:], word[3:])
