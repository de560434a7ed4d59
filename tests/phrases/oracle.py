"""Random grammars, and a slow matcher that shares nothing with the real one but the tree."""

from __future__ import annotations

from itertools import product
from typing import assert_never

from hypothesis import strategies as st

from handsfree.phrases.link import read_grammar
from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Null,
    Reference,
    Repeat,
    Rule,
    Rules,
    Sequence,
    Tagged,
    Void,
    Word,
    optional,
)

LETTERS = "abc"


def read(body: str, *, name: str = "g") -> Rules:
    """The grammar with these rules."""
    return read_grammar(f"#JSGF V1.0;\ngrammar {name};\n{body}", f"{name}.jsgf")


def strings(longest: int) -> list[tuple[str, ...]]:
    """Every string of LETTERS up to that length."""
    return [words for length in range(longest + 1) for words in product(LETTERS, repeat=length)]


def accepts(rules: Rules, words: tuple[str, ...]) -> bool:
    """Tell whether some public rule can be matched by exactly these words."""
    return any(len(words) in _ends(Reference(name), rules, words, 0) for name in rules.public)


def _ends(expansion: Expansion, rules: Rules, words: tuple[str, ...], at: int) -> set[int]:
    match expansion:
        case Word(_, sounds):
            return {at + len(sounds)} if words[at : at + len(sounds)] == sounds else set()
        case Null():
            return {at}
        case Void():
            return set()
        case Tagged(body):
            return _ends(body, rules, words, at)
        case Reference(rule):
            return _ends(rules.by_name[rule].body, rules, words, at)
        case Choice(options):
            return {end for option in options for end in _ends(option, rules, words, at)}
        case Sequence(parts):
            ends = {at}
            for part in parts:
                ends = {after for end in ends for after in _ends(part, rules, words, end)}
            return ends
        case Repeat(body, least):
            ends = _ends(body, rules, words, at)
            reached = ends | (set() if least else {at})
            while ends:
                ends = {after for end in ends for after in _ends(body, rules, words, end)} - reached
                reached |= ends
            return reached
        case _:
            assert_never(expansion)


def _name(number: int) -> str:
    return f"g.r{number}"


def _expansions(later: list[int]) -> st.SearchStrategy[Expansion]:
    leaves: list[st.SearchStrategy[Expansion]] = [
        st.sampled_from(LETTERS).map(lambda letter: Word(letter, (letter,))),
        st.just(Word("a b", ("a", "b"))),
        st.just(Null()),
    ]
    if later:
        leaves.append(st.sampled_from(later).map(lambda number: Reference(_name(number))))
    return st.recursive(
        st.one_of(*leaves, st.just(Void())),
        lambda inner: st.one_of(
            st.lists(inner, min_size=2, max_size=3).map(lambda parts: Sequence(tuple(parts))),
            st.lists(inner, min_size=2, max_size=3).map(lambda options: Choice(tuple(options))),
            st.builds(Repeat, inner, st.sampled_from([0, 1])),
            st.builds(Tagged, inner, st.sampled_from(["t", "u"])),
            inner.map(optional),
        ),
        max_leaves=6,
    )


@st.composite
def rule_sets(draw: st.DrawFn) -> Rules:
    """Up to four rules that use later ones, some with recursion to the right, one or two of them public."""
    count = draw(st.integers(1, 4))
    by_name = {}
    for number in range(count):
        body = draw(_expansions(list(range(number + 1, count))))
        if draw(st.booleans()):
            again = Sequence((Word("c", ("c",)), Reference(_name(draw(st.integers(0, number))))))
            body = Choice((Tagged(again, "again") if draw(st.booleans()) else again, body))
        by_name[_name(number)] = Rule(_name(number), body)
    return Rules(by_name, tuple(_name(number) for number in range(draw(st.integers(1, min(2, count))))))
