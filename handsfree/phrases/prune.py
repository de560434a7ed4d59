"""Takes out of a grammar what can never be said, so that every way through it leads to an end."""

from __future__ import annotations

from dataclasses import replace
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
)


def pruned(rules: Rules) -> Rules:
    """The same sentences, without `<VOID>`, options of weight 0 and rules that can never be matched."""
    barren = frozenset(rules.by_name)
    while ending := {name for name in barren if _ends(rules.by_name[name].body, barren)}:
        barren -= ending
    fertile = {
        name: replace(rule, body=_pruned(rule.body, barren))
        for name, rule in rules.by_name.items()
        if name not in barren
    }
    public = tuple(name for name in rules.public if name in fertile)
    used = Rules(fertile, public).reachable(public)
    return Rules({name: fertile[name] for name in used}, public)


def _ends(expansion: Expansion, barren: frozenset[str]) -> bool:
    """Whether it can be said to its end. barren: rules of which that is not known yet."""
    match expansion:
        case Word() | Null():
            return True
        case Void():
            return False
        case Reference(rule):
            return rule not in barren
        case Sequence(parts):
            return all(_ends(part, barren) for part in parts)
        case Choice():
            return any(_ends(option, barren) for option, _ in options(expansion))
        case Repeat(body, least):
            return not least or _ends(body, barren)
        case Tagged(body):
            return _ends(body, barren)
        case _:
            assert_never(expansion)


def _pruned(expansion: Expansion, barren: frozenset[str]) -> Expansion:
    match expansion:
        case Word() | Null() | Void():
            return expansion
        case Reference(rule):
            return Void() if rule in barren else expansion
        case Sequence(parts):
            left = tuple(_pruned(part, barren) for part in parts)
            return Void() if Void() in left else Sequence(left)
        case Choice():
            return _pruned_choice(expansion, barren)
        case Repeat(body, least):
            body = _pruned(body, barren)
            nothing = Void() if least else Null()
            return nothing if body == Void() else Repeat(body, least)
        case Tagged(body, tag):
            body = _pruned(body, barren)
            return Void() if body == Void() else Tagged(body, tag)
        case _:
            assert_never(expansion)


def _pruned_choice(choice: Choice, barren: frozenset[str]) -> Expansion:
    weighed = [(_pruned(option, barren), weight) for option, weight in options(choice)]
    left = [(option, weight) for option, weight in weighed if option != Void()]
    if len(left) < 2:
        return left[0][0] if left else Void()
    weights = tuple(weight for _, weight in left) if choice.weights else ()
    return Choice(tuple(option for option, _ in left), weights)
