"""Spells the words of a grammar as a recogniser knows them."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from handsfree.errors import GrammarError, UnknownWord
from handsfree.phrases.tree import Expansion, Rule, Rules, Word, children, rebuilt

Knows = Callable[[str], bool]
"""Tells whether the recogniser can hear this word (lower case)."""


def knows_all(_word: str) -> bool:
    """For typed lines: any word will do."""
    return True


def read_sounds(text: str, file: str) -> dict[str, str]:
    """Read the sounds-like table, TOML: word = "spelling of known words". Raises GrammarError."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise GrammarError(file, 0, f"{wrong}.", 'Write word = "spelling" in each line.') from None
    for word, spelling in table.items():
        if not isinstance(spelling, str) or not spelling.split():
            raise GrammarError(file, 0, f"{word} has no spelling.", 'Write word = "spelling" in each line.')
    return {word.casefold(): spelling.casefold() for word, spelling in table.items()}


def spelled(rules: Rules, knows: Knows, sounds: Mapping[str, str]) -> Rules:
    """The public rules and all that they use, each word with its sounds. Raises UnknownWord."""
    reachable = {name: rules.by_name[name] for name in rules.reachable(rules.public)}
    return Rules({name: _rule(rule, knows, sounds) for name, rule in reachable.items()}, rules.public)


def _rule(rule: Rule, knows: Knows, sounds: Mapping[str, str]) -> Rule:
    def respelled(expansion: Expansion) -> Expansion:
        if isinstance(expansion, Word):
            return replace(expansion, sounds=tuple(_sounds(expansion, knows, sounds)))
        return rebuilt(expansion, map(respelled, children(expansion)))

    return replace(rule, body=respelled(rule.body))


def _sounds(word: Word, knows: Knows, sounds: Mapping[str, str]) -> Iterator[str]:
    whole = word.text.casefold()
    if whole in sounds and not all(map(knows, whole.split())):
        yield from _known(sounds[whole], word, knows)
        return
    for part in whole.split():
        yield from _known(next(_spellings(part, knows, sounds), part), word, knows)


def _spellings(part: str, knows: Knows, sounds: Mapping[str, str]) -> Iterator[str]:
    """Ways to spell one word of a token that the recogniser knows, the nearest first."""
    bare = part.strip(".,:;!?")
    for way in (
        part,
        sounds.get(part, ""),
        bare,
        bare.replace("-", " "),
        bare.replace("-", ""),
        bare.replace("'", "").replace("’", ""),
        bare.replace("’", "'"),
    ):
        if way.split() and all(map(knows, way.split())):
            yield way


def _known(spelling: str, word: Word, knows: Knows) -> Iterator[str]:
    for part in spelling.split():
        if not knows(part):
            at = word.place
            raise UnknownWord(
                at.file,
                at.line,
                f"the recogniser does not know “{part}”, in “{word.text}”.",
                "Give it a sounds-like spelling of known words, or say it in other words.",
                column=at.column,
            )
        yield part
