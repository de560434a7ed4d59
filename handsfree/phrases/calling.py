"""The call word: whether speech begins with it, and whether it can be told from the words of commands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from handsfree.errors import WrongUse
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.spelling import Knows, SoundsLike
from handsfree.phrases.tree import Expansion, Rule, Rules, Sequence, Word, children
from handsfree.words import worded

_CLASSES = (
    (r"[^a-z]|gh|e$|h$", ""),
    (r"^kn", "n"),
    (r"^wr", "r"),
    (r"ph|v", "f"),
    (r"sh|ch|tch|j|dge", "x"),
    (r"c(?=[eiy])|z", "s"),
    (r"x$", "ks"),
    (r"ck|[cqg]", "k"),
    (r"d", "t"),
    (r"b", "p"),
    (r"[aeiouyw]+", "a"),
    (r"(.)\1+", r"\1"),
)
"""Letters of one class sound alike over a poor microphone; so do all vowels. Rough, and enough to refuse."""


class Call:
    """A call word of one word or more, as an ear hears it. Raises UnknownWord where it cannot."""

    def __init__(self, word: str, knows: Knows, sounds: SoundsLike) -> None:
        words = tuple(Word(part, (part.casefold(),)) for part in word.split())
        rules = Rules({"call": Rule("call", Sequence(words), public=True)}, ("call",))
        self._grammar: Grammar = compile_grammar(rules, knows=knows, sounds=sounds)

    def begins(self, words: tuple[str, ...]) -> bool:
        """Whether words in the ear's spelling begin with the call word."""
        return any(self._grammar.match(words[:count]) for count in range(1, len(words) + 1))


def refuse_like_commands(call_word: str, rules: Rules) -> None:
    """Raises WrongUse where each part of a call word sounds like some word of the commands."""
    known = {text.casefold() for rule in rules.by_name.values() for text in _texts(rule.body)}
    like = [_nearest(part, known) for part in call_word.casefold().split()]
    if all(like):
        wrong = worded(
            "The call word “{call_word}” sounds like “{sentence}”, which is a part of commands.",
            call_word=call_word,
            sentence=" ".join(like),
        )
        raise WrongUse(wrong, worded("Take another, for example medic."))


def _nearest(part: str, known: set[str]) -> str:
    """The word itself, else one that sounds like it, else nothing."""
    return part if part in known else next((one for one in sorted(known) if alike(part, one)), "")


def alike(one: str, other: str) -> bool:
    """Whether two words sound alike: the same classes of sounds, or one letter apart."""
    one, other = one.casefold(), other.casefold()
    return _key(one) == _key(other) or _one_letter_apart(one, other)


def _key(word: str) -> str:
    for letters, sound in _CLASSES:
        word = re.sub(letters, sound, word)
    return word


def _one_letter_apart(one: str, other: str) -> bool:
    short, long = sorted((one, other), key=len)
    same = next((at for at, letter in enumerate(short) if letter != long[at]), len(short))
    return len(long) - len(short) <= 1 and short[same + (len(short) == len(long)) :] == long[same + 1 :]


def _texts(expansion: Expansion) -> Iterator[str]:
    if isinstance(expansion, Word):
        yield from expansion.text.split()
    for child in children(expansion):
        yield from _texts(child)
