"""Spells the words of a grammar as a recogniser knows them."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from itertools import product

from handsfree.errors import GrammarError, UnknownWord
from handsfree.phrases.tree import Choice, Expansion, Rules, Word, children, rebuilt
from handsfree.words import worded

Knows = Callable[[str], bool]
"""Tells whether the recogniser can hear this word (lower case)."""

SoundsLike = Mapping[str, tuple[str, ...]]
"""For a word that a recogniser may lack: spellings made of words that sound like it, all of which are heard.
A word that it knows is heard as it is, or, where it stands among its own spellings, as each of them."""


_MARKS = ".,:;!?"


def knows_all(_word: str) -> bool:
    """For typed lines: any word will do."""
    return True


def read_sounds(text: str, file: str) -> SoundsLike:
    """Read a sounds-like table, TOML: word = ["spelling", "another"]. Raises GrammarError."""
    step = worded('Write word = ["spelling of common words"] in each line.')
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise GrammarError(file, 0, f"{wrong}.", step) from None
    for word, spellings in table.items():
        if not isinstance(spellings, list) or not all(
            isinstance(one, str) and one.split() for one in spellings
        ):
            raise GrammarError(file, 0, worded("“{word}” has no spellings.", word=word), step)
    return {word.casefold(): tuple(map(str.casefold, spellings)) for word, spellings in table.items()}


def spelled(rules: Rules, knows: Knows, sounds: SoundsLike) -> Rules:
    """The public rules and all that they use, each word in every spelling that the recogniser knows of it.

    Raises UnknownWord.
    """

    @cache  # most words stand in many places
    def ways(word: Word) -> tuple[tuple[str, ...], ...]:
        return tuple(dict.fromkeys(tuple(way.split()) for way in _ways(word, knows, sounds)))

    def respelled(expansion: Expansion) -> Expansion:
        if isinstance(expansion, Word):
            words = tuple(Word(expansion.text, way, expansion.place) for way in ways(expansion))
            return words[0] if len(words) == 1 else Choice(words)
        return rebuilt(expansion, map(respelled, children(expansion)))

    used = {name: rules.by_name[name] for name in rules.reachable(rules.public)}
    return Rules(
        {name: replace(rule, body=respelled(rule.body)) for name, rule in used.items()}, rules.public
    )


def _ways(word: Word, knows: Knows, sounds: SoundsLike) -> Iterator[str]:
    """Every spelling that the recogniser knows of a token, which may be of several words."""
    whole = word.text.casefold()
    parts = whole.split()
    together = () if all(map(knows, parts)) else tuple(_listed(whole, knows, sounds))
    if together:
        yield from together
        return
    spellings = [tuple(_listed(part, knows, sounds)) or _plain(part, knows) for part in parts]
    if not all(spellings):
        raise _unknown(parts[spellings.index(())], word)
    yield from map(" ".join, product(*spellings))


def _listed(word: str, knows: Knows, sounds: SoundsLike) -> Iterator[str]:
    """The spellings of the table, for a word that the recogniser lacks, or that stands among them itself."""
    ways = sounds.get(word.strip(_MARKS).replace("’", "'"), ())
    if not knows(word) or word in ways:
        yield from (way for way in ways if _known(way, knows))


def _plain(word: str, knows: Knows) -> tuple[str, ...]:
    """The word as it is, or without its marks; empty where the recogniser knows neither."""
    bare = word.strip(_MARKS).replace("’", "'")
    ways = (word, bare, bare.replace("-", " "), bare.replace("-", ""), bare.replace("'", ""))
    return next(((way,) for way in ways if _known(way, knows)), ())


def _known(spelling: str, knows: Knows) -> bool:
    return bool(spelling.split()) and all(map(knows, spelling.split()))


def _unknown(part: str, word: Word) -> UnknownWord:
    step = worded("Say it in other words, or give it a spelling in the sounds-like table.")
    wrong = worded("the recogniser does not know “{word}” in “{text}”.", word=part, text=word.text)
    if part == word.text:
        wrong = worded("the recogniser does not know “{word}”.", word=part)
    return UnknownWord(word.place.file, word.place.line, wrong, step, column=word.place.column)
