"""When two readings mean the same, though their words differ."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from fractions import Fraction

from handsfree.phrases import numbers
from handsfree.phrases.match import spans
from handsfree.signals import Node

FILLERS = frozenset(
    (
        *("a", "an", "the", "this", "that", "that's", "it", "it's", "its"),
        *("i", "i'm", "me", "my", "we", "we're", "us", "our", "you", "your", "he", "she", "they"),
        *("is", "are", "am", "be", "and", "then", "of", "to", "at", "now", "just", "please"),
        *("er", "uh", "um"),
    )
)
"""Words that change nothing, except inside a number."""

LIGHT = frozenset(
    (
        *("set", "turn", "take", "make", "put", "get", "give", "go", "have", "do", "let"),
        *("by", "for", "with", "from", "as", "into", "number"),
    )
)
"""Words that change nothing where the grammar lets one leave them out: verbs and prepositions that say little
by themselves. Not those that turn a sentence round or give a direction (no, minus, on, up), nor those that
tell one thing from another (last, small)."""

_HUNDREDS = frozenset(("hundred", "thousand"))
"""Words before which "one" says no more than "a"."""


def by_words(node: Node) -> Hashable:
    """For any grammar: same public rule, and the same in the same order of numbers, tags and words.

    Words that a tag of their rule stands for do not count, nor do fillers, nor light words that may be left
    out; a hundred is one hundred. Two ways through a rule that say the same words mean the same: nobody could
    say which was meant.
    """
    said = tuple(_said(node))
    one_less = (part for part, then in zip(said, (*said[1:], ""), strict=True) if not _is_one(part, then))
    return node.rule, tuple(one_less)


def _is_one(part: Hashable, then: Hashable) -> bool:
    return part == "one" and then in _HUNDREDS


def _value(node: Node) -> Fraction | None:
    """The number of a rule that holds one."""
    try:
        return numbers.value(node) if node.rule in numbers.RULES else None
    except ValueError:
        return None


def _said(node: Node) -> Iterator[Hashable]:
    value = _value(node)
    if value is not None:
        yield value
        return
    yield from node.tags
    for part in _in_order(node):
        if isinstance(part, Node):
            yield from _said(part)
        elif not node.tags:
            yield _root(part)


def _root(word: str) -> str:
    """One form for "crate weighs" and "crates weigh": nobody means one by the other."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _in_order(node: Node) -> Iterator[str | Node]:
    """Its own words that say something and the rules inside, as they follow each other."""
    at = 0
    for child, span in zip(node.children, spans(node), strict=True):
        yield from _telling(node, range(at, span.start))
        yield child
        at = span.stop
    yield from _telling(node, range(at, len(node.words)))


def _telling(node: Node, places: Iterable[int]) -> Iterator[str]:
    for place in places:
        word = node.words[place]
        if word not in FILLERS and not (word in LIGHT and place in node.spare):
            yield word
