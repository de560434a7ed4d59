"""Right recursion and no other: the only kind that a regular language, and so a recogniser, can hold."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.phrases.refusal import refuse
from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Reference,
    Rule,
    Rules,
    Sequence,
    Tagged,
    children,
    nullable,
    nullable_rules,
    references,
    short,
)
from handsfree.words import worded

_STEP = worded("Put the reference last, behind a word, or use * or +.")


def circles(rules: Rules) -> dict[str, frozenset[str]]:
    """For each rule, the rules that it uses and that use it again, directly or through others.

    Rules of another set, over which this one is compiled, use none of it.
    """
    own = rules.by_name
    uses = {name: {ref.rule for ref in references(own[name].body) if ref.rule in own} for name in own}
    reach = _closed(uses)
    return {name: frozenset(to for to in reach[name] if name in reach[to]) for name in reach}


def check(rules: Rules) -> None:
    """Accept right recursion, direct or nested. Raises GrammarError for any other."""
    looping, empty = circles(rules), nullable_rules(rules)
    for name, circle in looping.items():
        if circle:
            _refuse_midway(rules.by_name[name], circle)
    openers = {
        name: {ref.rule for ref in _first_references(rule.body, empty)}
        for name, rule in rules.by_name.items()
    }
    reach = _closed(openers)
    for name, rule in rules.by_name.items():
        if name in reach[name]:
            raise refuse(
                rule.place,
                worded("<{rule}> comes back to itself without a word before", rule=rule.short),
                _STEP,
            )


def _refuse_midway(rule: Rule, circle: frozenset[str]) -> None:
    """Raise GrammarError for a reference to one of the rules of its circle that is not the last thing."""
    last = set(map(id, last_references(rule.body)))
    for ref in references(rule.body):
        if ref.rule in circle and id(ref) not in last:
            names = {"rule": short(ref.rule), "other": rule.short}
            wrong = worded("<{rule}> comes back to <{other}> before its end", **names)
            raise refuse(ref.place, wrong, _STEP)


def last_references(expansion: Expansion) -> Iterator[Reference]:
    """The references after which nothing of this expansion can follow."""
    match expansion:
        case Reference():
            yield expansion
        case Sequence(parts):
            yield from last_references(parts[-1])
        case Choice() | Tagged():
            for child in children(expansion):
                yield from last_references(child)
        case _:
            return


def _first_references(expansion: Expansion, empty: frozenset[str]) -> Iterator[Reference]:
    """The references before which no word need be said."""
    match expansion:
        case Reference():
            yield expansion
        case Sequence(parts):
            for part in parts:
                yield from _first_references(part, empty)
                if not nullable(part, empty):
                    return
        case _:
            for child in children(expansion):
                yield from _first_references(child, empty)


def _closed(edges: dict[str, set[str]]) -> dict[str, set[str]]:
    """The transitive closure."""
    reach: dict[str, set[str]] = {}
    for name, nexts in edges.items():
        seen: set[str] = set()
        waiting = list(nexts)
        while waiting:
            to = waiting.pop()
            if to not in seen:
                seen.add(to)
                waiting.extend(edges[to])
        reach[name] = seen
    return reach
