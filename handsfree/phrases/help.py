"""Spoken help: one short example for each thing that can be said."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain
from typing import assert_never

from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Null,
    Reference,
    Repeat,
    Rules,
    Sequence,
    Tagged,
    Void,
    Word,
    options,
    short,
)


def examples(rules: Rules) -> dict[str, str]:
    """A sentence for each public rule, by short name.

    The likeliest alternatives by weight, else the first; what is optional is left out. A rule of which
    nothing remains has no example.
    """
    bodies = {name: rules.by_name[name].body for name in rules.public}
    said = {short(name): _example(body, rules, frozenset({name})) for name, body in bodies.items()}
    return {name: " ".join(words) for name, words in said.items() if words}


def _example(expansion: Expansion, rules: Rules, within: frozenset[str]) -> tuple[str, ...] | None:
    """The words of the example; None where there is none without going round in `within`."""
    match expansion:
        case Word(text):
            return (text,)
        case Null():
            return ()
        case Void():
            return None
        case Tagged(body):
            return _example(body, rules, within)
        case Repeat(body, least):
            return _example(body, rules, within) if least else ()
        case Sequence(parts):
            return _joined(_example(part, rules, within) for part in parts)
        case Reference(rule):
            return None if rule in within else _example(rules.by_name[rule].body, rules, within | {rule})
        case Choice((_, Null()), ()):
            return ()
        case Choice():
            likeliest = sorted(options(expansion), key=lambda option: -option[1])
            tried = (_example(option, rules, within) for option, _ in likeliest)
            return next((words for words in tried if words is not None), None)
        case _:
            assert_never(expansion)


def _joined(parts: Iterable[tuple[str, ...] | None]) -> tuple[str, ...] | None:
    said = list(parts)
    whole = [part for part in said if part is not None]
    return tuple(chain.from_iterable(whole)) if len(whole) == len(said) else None
