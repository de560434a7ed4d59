"""When two readings mean the same, though their words differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Mapping, Sequence
from fractions import Fraction

from handsfree.phrases import numbers
from handsfree.signals import Node

FILLERS = frozenset(
    (
        *("a", "an", "the", "this", "that", "that's", "it", "it's", "its"),
        *("i", "i'm", "me", "my", "we", "we're", "us", "our", "you", "your", "he", "she", "they"),
        *(
            "is",
            "are",
            "am",
            "be",
            "and",
            "then",
            "of",
            "to",
            "at",
            "now",
            "just",
            "please",
            "er",
            "uh",
            "um",
        ),
    )
)
"""Words that change nothing, except inside a number."""

_VALUES: Mapping[str, Callable[[Sequence[str]], Fraction | int]] = {
    **dict.fromkeys(("whole", "small", "tens", "digit"), numbers.number),
    "decimal": numbers.number,
    "year": numbers.year,
    "month": numbers.month,
    "day": numbers.day,
}


def by_words(node: Node) -> Hashable:
    """For any grammar: same rules, same tags, same words where no tag says what is meant, fillers apart."""
    return _meaning(node, own_words=True)


def by_rule(node: Node) -> Hashable:
    """For a grammar whose rules mean one thing each, but for their tags, numbers and the rules inside."""
    return _meaning(node, own_words=False)


def _meaning(node: Node, *, own_words: bool) -> Hashable:
    if node.rule in _VALUES:
        try:
            return node.rule, _VALUES[node.rule](node.words)
        except ValueError:
            pass
    inside = tuple(_meaning(child, own_words=own_words) for child in node.children)
    return node.rule, node.tags, inside, _own(node) if own_words and not node.tags else ()


def _own(node: Node) -> tuple[str, ...]:
    """Its words without those of the rules inside, and without fillers."""
    left = Counter(node.words) - Counter(word for child in node.children for word in child.words)
    return tuple(sorted(word for word in left.elements() if word not in FILLERS))
