"""The rules as a network of nodes and arcs. A rule used in many places stands in it once."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass, field
from typing import assert_never

from handsfree.phrases.recursion import circles
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
    nullable,
    nullable_rules,
    options,
    spare,
)


@dataclass(frozen=True, slots=True)
class Enter:
    """A rule begins. within: it ends together with the rule around it (right recursion)."""

    rule: str
    within: bool = False


@dataclass(frozen=True, slots=True)
class Leave:
    """The rule that began last ends."""


@dataclass(frozen=True, slots=True)
class Label:
    """A tag of the rule that began last."""

    tag: str


@dataclass(frozen=True, slots=True)
class Token:
    """One token, in the grammar's spelling. spare: the grammar lets one leave it out."""

    text: str
    spare: bool = field(default=False, compare=False)


Mark = Enter | Leave | Label | Token


@dataclass(frozen=True, slots=True)
class Say:
    """Takes one word of the recogniser. token: the token that it begins, if it does."""

    sound: str
    token: Token | None
    to: int


@dataclass(frozen=True, slots=True)
class Skip:
    """Takes no word."""

    to: int
    label: Label | None = None


@dataclass(frozen=True, slots=True)
class Call:
    """Goes through a rule, then on."""

    rule: str
    back: int


@dataclass(frozen=True, slots=True)
class Jump:
    """Goes into a rule with which the present one ends."""

    rule: str
    within: bool


@dataclass(frozen=True, slots=True)
class Begin:
    """Begins a pass of a loop whose body can be empty, so that passes without a word can be told."""

    to: int


@dataclass(frozen=True, slots=True)
class End:
    """Ends a pass that `Begin` began.

    again: goes on behind a pass with words. empty: behind a first pass without, where that may be (`+`).
    """

    again: int
    empty: int | None


Arc = Say | Skip | Call | Jump | Begin | End

RULE_END = 0
"""The node at which every rule ends."""


@dataclass(frozen=True, slots=True)
class Network:
    """Arcs of each node in the order of the grammar.

    owners: the rule of each node, or empty. entries: the first node of each rule, by full name.
    empty: full names of the rules that can be matched without a word.
    start: a node with a jump into each public rule.
    """

    arcs: tuple[tuple[Arc, ...], ...]
    owners: tuple[str, ...]
    entries: dict[str, int]
    empty: frozenset[str]
    start: int

    def words(self, rules: Container[str]) -> frozenset[str]:
        """Every word that some rule says. rules: their full names."""
        said = (arcs for arcs, owner in zip(self.arcs, self.owners, strict=True) if owner in rules)
        return frozenset(arc.sound for arcs in said for arc in arcs if isinstance(arc, Say))


def lay(rules: Rules, base: Network | None = None) -> Network:
    """Lay out the public rules and all that they use. rules: pruned, so that every way leads to an end.

    base: a network whose nodes stay as they lie; the rules that it has need not be given again.
    """
    layer = _Layer(rules, base or Network(((),), ("",), {}, frozenset(), RULE_END))
    for name in rules.reachable(rules.public):
        layer.rule(name)
    return layer.network(rules.public)


class _Layer:
    """Lays expansions from back to front: each is given the node that follows it and returns its own first.

    `late` holds tags that wait for the end of a rule where the expansion is the last thing in it, else None:
    there a recursive reference becomes a jump, and what belongs to the rule must stand before it.
    """

    def __init__(self, rules: Rules, base: Network) -> None:
        self._base = base
        self._arcs: list[list[Arc]] = []
        self._owners: list[str] = []
        self._entries = dict(base.entries)
        self._rules = rules
        self._circles = circles(rules)
        self._empty = nullable_rules(rules, base.empty)
        self._rule = ""
        self._spare = False

    def rule(self, name: str) -> None:
        """Lay a rule, if it does not lie."""
        if name not in self._entries:
            self._rule = name
            self._entries[name] = self._lay(self._rules.by_name[name].body, RULE_END, ())

    def network(self, public: Iterable[str]) -> Network:
        """All that lies, begun with one of the public rules."""
        self._rule = ""
        start = self._node(*(Jump(name, within=False) for name in public))
        arcs = (*self._base.arcs, *map(tuple, self._arcs))
        return Network(arcs, (*self._base.owners, *self._owners), self._entries, self._empty, start)

    def _node(self, *arcs: Arc) -> int:
        self._arcs.append(list(arcs))
        self._owners.append(self._rule)
        return len(self._base.arcs) + len(self._arcs) - 1

    def _lay(self, expansion: Expansion, after: int, late: tuple[str, ...] | None) -> int:
        match expansion:
            case Void():
                return self._node()
            case Null():
                return self._labels(late, after)
            case Word():
                return self._word(expansion, self._labels(late, after))
            case Sequence(parts):
                node = self._lay(parts[-1], after, late)
                for part in reversed(parts[:-1]):
                    node = self._lay(part, node, None)
                return node
            case Choice():
                around, self._spare = self._spare, self._spare or spare(expansion)
                firsts = [self._lay(option, after, late) for option, _ in options(expansion)]
                self._spare = around
                return self._node(*map(Skip, firsts))
            case Repeat():
                return self._repeat(expansion, self._labels(late, after))
            case Tagged(body, tag):
                if late is None:
                    return self._lay(body, self._labels((tag,), after), None)
                return self._lay(body, after, (tag, *late))
            case Reference(rule):
                if rule in self._circles[self._rule]:
                    return self._labels(late, self._node(Jump(rule, within=True)))
                return self._node(Call(rule, self._labels(late, after)))
            case _:
                assert_never(expansion)

    def _labels(self, tags: Iterable[str] | None, after: int) -> int:
        for tag in reversed(tuple(tags or ())):
            after = self._node(Skip(after, Label(tag)))
        return after

    def _word(self, word: Word, after: int) -> int:
        for sound in reversed(word.sounds[1:]):
            after = self._node(Say(sound, None, after))
        return self._node(Say(word.sounds[0], Token(word.text, self._spare), after))

    def _repeat(self, repeat: Repeat, after: int) -> int:
        again = self._node()
        ways = self._arcs[-1]
        if nullable(repeat.body, self._empty):
            ways += [self._pass(repeat.body, again, None), Skip(after)]
            return self._node(self._pass(repeat.body, again, after)) if repeat.least else again
        body = self._lay(repeat.body, again, None)
        ways += [Skip(body), Skip(after)]
        return body if repeat.least else again

    def _pass(self, body: Expansion, again: int, empty: int | None) -> Begin:
        return Begin(self._lay(body, self._node(End(again, empty)), None))
