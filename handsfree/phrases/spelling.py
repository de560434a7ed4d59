"""Spells the words of a grammar as a recogniser knows them."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from handsfree.errors import GrammarError, UnknownWord
from handsfree.phrases.tree import Expansion, Rule, Rules, Word, children, rebuilt

Knows = Callable[[str], bool]
"""Tells whether the recogniser can hear this word (lower case)."""

SoundsLike = Mapping[str, tuple[str, ...]]
"""For a word that a recogniser may lack: spellings made of words that sound like it, the best first."""


def knows_all(_word: str) -> bool:
    """For typed lines: any word will do."""
    return True


def read_sounds(text: str, file: str) -> SoundsLike:
    """Read a sounds-like table, TOML: word = ["spelling", "another"]. Raises GrammarError."""
    step = 'Write word = ["spelling of common words"] in each line.'
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise GrammarError(file, 0, f"{wrong}.", step) from None
    for word, spellings in table.items():
        if not isinstance(spellings, list) or not all(
            isinstance(one, str) and one.split() for one in spellings
        ):
            raise GrammarError(file, 0, f"“{word}” has no spellings.", step)
    return {word.casefold(): tuple(map(str.casefold, spellings)) for word, spellings in table.items()}


def spelled(rules: Rules, knows: Knows, sounds: SoundsLike) -> Rules:
    """The public rules and all that they use, each word with its sounds. Raises UnknownWord."""
    reachable = {name: rules.by_name[name] for name in rules.reachable(rules.public)}
    return Rules({name: _rule(rule, knows, sounds) for name, rule in reachable.items()}, rules.public)


def _rule(rule: Rule, knows: Knows, sounds: SoundsLike) -> Rule:
    def respelled(expansion: Expansion) -> Expansion:
        if isinstance(expansion, Word):
            return replace(expansion, sounds=tuple(_sounds(expansion, knows, sounds)))
        return rebuilt(expansion, map(respelled, children(expansion)))

    return replace(rule, body=respelled(rule.body))


def _sounds(word: Word, knows: Knows, sounds: SoundsLike) -> Iterator[str]:
    whole = word.text.casefold()
    together = () if all(map(knows, whole.split())) else sounds.get(whole, ())
    for spelling in together:
        if _known(spelling, knows):
            yield from spelling.split()
            return
    for part in whole.split():
        spelling = next((way for way in _spellings(part, sounds) if _known(way, knows)), "")
        if not spelling:
            raise _unknown(part, word)
        yield from spelling.split()


def _spellings(part: str, sounds: SoundsLike) -> Iterator[str]:
    """Ways to spell one word, the nearest first."""
    bare = part.strip(".,:;!?").replace("’", "'")
    yield part
    yield from sounds.get(bare, ())
    yield bare
    yield bare.replace("-", " ")
    yield bare.replace("-", "")
    yield bare.replace("'", "")


def _known(spelling: str, knows: Knows) -> bool:
    return bool(spelling.split()) and all(map(knows, spelling.split()))


def _unknown(part: str, word: Word) -> UnknownWord:
    where = "" if part == word.text else f" in “{word.text}”"
    step = "Say it in other words, or give it a spelling in the sounds-like table."
    wrong = f"the recogniser does not know “{part}”{where}."
    return UnknownWord(word.place.file, word.place.line, wrong, step, column=word.place.column)
