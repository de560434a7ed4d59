"""The tree of a grammar, as immutable values: the one that matches, enumerates, exports and prints help."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import assert_never


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in a grammar file; line and column count from 1, 0 where unknown."""

    file: str = ""
    line: int = 0
    column: int = 0


NOWHERE = Place()


@dataclass(frozen=True, slots=True)
class Word:
    """One token. text: in the grammar's spelling. sounds: the same, as words in the recogniser's spelling."""

    text: str
    sounds: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Sequence:
    """All parts, one after the other."""

    parts: tuple[Expansion, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the options. weights: one for each option, or empty; an option of weight 0 is never said."""

    options: tuple[Expansion, ...]
    weights: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Repeat:
    """The body again and again. least: 0 (`*`) or 1 (`+`)."""

    body: Expansion
    least: int


@dataclass(frozen=True, slots=True)
class Reference:
    """The rule of that name; the full name once the grammar is linked."""

    rule: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Tagged:
    """The body, and a tag for the program that is not spoken."""

    body: Expansion
    tag: str


@dataclass(frozen=True, slots=True)
class Null:
    """Matched without a word."""


@dataclass(frozen=True, slots=True)
class Void:
    """Never matched."""


Expansion = Word | Sequence | Choice | Repeat | Reference | Tagged | Null | Void


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule. name: full, `package.grammar.rule`."""

    name: str
    body: Expansion
    public: bool = False
    place: Place = field(default=NOWHERE, compare=False)

    @property
    def short(self) -> str:
        """The name without package and grammar."""
        return short(self.name)


@dataclass(frozen=True, slots=True)
class Rules:
    """A linked set of rules. public: full names of those that may be said alone, in order of the grammar."""

    by_name: Mapping[str, Rule]
    public: tuple[str, ...]

    def find(self, name: str) -> str:
        """Full name of the rule of this full or short name; KeyError where there is none or more than one."""
        if name in self.by_name:
            return name
        behind = f".{name}"
        found = [full for full in self.by_name if full.endswith(behind)]
        if len(found) != 1:
            raise KeyError(name)
        return found[0]

    def reachable(self, roots: Iterable[str]) -> tuple[str, ...]:
        """Full names of `roots` and of every rule that they use, each once, in order of first use.

        Rules of another set, over which this one is compiled, are left out.
        """
        seen: dict[str, None] = {}
        waiting = list(roots)[::-1]
        while waiting:
            name = waiting.pop()
            if name not in seen and name in self.by_name:
                seen[name] = None
                waiting += [ref.rule for ref in references(self.by_name[name].body)][::-1]
        return tuple(seen)


def short(name: str) -> str:
    """The last part of a qualified name."""
    return name.rpartition(".")[2]


def optional(body: Expansion) -> Choice:
    """`[body]`: the standard defines it as a choice between the body and nothing."""
    return Choice((body, Null()))


def spare(choice: Choice) -> bool:
    """Whether it is `[body]`, its body plain words: who leaves them out says the same rule in fewer words."""
    bodies = [option for option in choice.options if option != Null()]
    return len(bodies) == 1 and len(choice.options) > 1 and _plain(bodies[0])


def _plain(body: Expansion) -> bool:
    match body:
        case Word():
            return True
        case Sequence(parts):
            return all(map(_plain, parts))
        case Choice():
            return spare(body)
        case _:
            return False


def options(choice: Choice) -> Iterator[tuple[Expansion, float]]:
    """The options that can be said, with their weights (1 where none is given)."""
    weights = choice.weights or (1.0,) * len(choice.options)
    return ((option, weight) for option, weight in zip(choice.options, weights, strict=True) if weight > 0)


def children(expansion: Expansion) -> tuple[Expansion, ...]:
    """The expansions directly inside."""
    match expansion:
        case Word() | Reference() | Null() | Void():
            return ()
        case Sequence(parts):
            return parts
        case Choice(options):
            return options
        case Repeat(body) | Tagged(body):
            return (body,)
        case _:
            assert_never(expansion)


def rebuilt(expansion: Expansion, inner: Iterable[Expansion]) -> Expansion:
    """The same expansion with other expansions inside."""
    match expansion:
        case Word() | Reference() | Null() | Void():
            return expansion
        case Sequence():
            return Sequence(tuple(inner))
        case Choice(_, weights):
            return Choice(tuple(inner), weights)
        case Repeat(_, least):
            return Repeat(next(iter(inner)), least)
        case Tagged(_, tag):
            return Tagged(next(iter(inner)), tag)
        case _:
            assert_never(expansion)


def references(expansion: Expansion) -> Iterator[Reference]:
    """Every rule reference inside, in order."""
    waiting = [expansion]
    while waiting:
        inner = waiting.pop()
        if isinstance(inner, Reference):
            yield inner
        elif not isinstance(inner, Word):  # most are words
            waiting += reversed(children(inner))


def nullable(expansion: Expansion, rules: frozenset[str] | set[str]) -> bool:
    """Tell whether it can be matched without a word, where `rules` are the rules that can."""
    match expansion:
        case Word() | Void():
            return False
        case Null():
            return True
        case Reference(rule):
            return rule in rules
        case Sequence(parts):
            return all(nullable(part, rules) for part in parts)
        case Choice():
            return any(nullable(option, rules) for option, _ in options(expansion))
        case Repeat(body, least):
            return least == 0 or nullable(body, rules)
        case Tagged(body):
            return nullable(body, rules)
        case _:
            assert_never(expansion)


def nullable_rules(rules: Rules, known: Iterable[str] = ()) -> frozenset[str]:
    """Full names of the rules that can be matched without a word, with those of others that are known to."""
    found = set(known)
    before = -1
    while before < len(found):
        before = len(found)
        found |= {name for name, rule in rules.by_name.items() if nullable(rule.body, found)}
    return frozenset(found)
