"""The phrases for Vosk's bigram: exactly the pairs of words that stand side by side in some sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import pytest
from hypothesis import given

from handsfree.phrases.cover import SHORT, phrases
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.neighbours import EDGE
from handsfree.phrases.tree import Choice, Reference, Rule, Rules
from tests.phrases.oracle import accepts, read, rule_sets, strings
from tests.phrases.test_random import compiled, thorough

Pair = tuple[str, str]


def shown(listed: Iterable[str]) -> Counter[Pair]:
    """How often each pair stands in phrases, edges included."""
    return Counter(
        pair
        for phrase in listed
        for words in [phrase.split()]
        for pair in zip([EDGE, *words], [*words, EDGE], strict=True)
    )


def walked(grammar: Grammar) -> set[Pair]:
    """Every pair that some way through the whole automaton takes; an empty sentence has none."""
    steps = grammar.automaton.steps
    found, seen, waiting = set(), set(), [(grammar.automaton.start, EDGE)]
    while waiting:
        state, last = waiting.pop()
        if (state, last) in seen:
            continue
        seen.add((state, last))
        found |= {(last, EDGE)} if steps(state).ends else set()
        for sound, moves in steps(state).moves.items():
            found.add((last, sound))
            waiting += [(move.to, sound) for move in moves]
    return found - {(EDGE, EDGE)}


@thorough
@given(rule_sets())
def test_every_pair_of_a_sentence_and_no_other(rules: Rules) -> None:
    """Walking the whole automaton finds the same pairs, first and last words too, as stand in the phrases."""
    grammar = compiled(rules)
    listed = set(shown(grammar.phrases()))
    assert walked(grammar) == listed
    assert {word for pair in listed for word in pair} - {EDGE} == grammar.words


@thorough
@given(rule_sets())
def test_pairs_of_sentences_that_the_tree_accepts(rules: Rules) -> None:
    """No sentence that a plain reading of the tree accepts has a pair that the phrases lack."""
    listed = shown(compiled(rules).phrases())
    sentences = (" ".join(words) for words in strings(5) if words and accepts(rules, words))
    assert set() == set(shown(sentences)) - set(listed)


@thorough
@given(rule_sets())
def test_the_number_of_phrases(rules: Rules) -> None:
    """At most one phrase for each pair, and the short ones; none is empty."""
    listed = compiled(rules).phrases()
    often = shown(listed)
    firsts = {word for before, word in often if before == EDGE}
    assert len(listed) <= len(often) + SHORT * len(firsts)
    assert all(listed)


@thorough
@given(rule_sets())
def test_rules_compiled_over_a_base(rules: Rules) -> None:
    """What is taken over from a grammar compiled before means the same as what is compiled anew."""
    last = list(rules.by_name)[-1]
    fresh = Rule("moment.fresh", Choice((Reference(last), Reference(rules.public[0]))), public=True)
    more = Rules({**rules.by_name, fresh.name: fresh}, (fresh.name, last))
    alone, over = compiled(more), compile_grammar(more, base=compiled(rules))
    assert (alone.public, alone.words, alone.rules) == (over.public, over.words, over.rules)
    assert set(shown(alone.phrases())) == set(shown(over.phrases()))
    assert [alone.match(words) for words in strings(3)] == [over.match(words) for words in strings(3)]


DIGIT = "<d> = zero | one | two | three | four | five | six | seven | eight | nine;"


@pytest.mark.parametrize(
    ("body", "most"),
    [
        ("public <a> = go;", 1 + SHORT),
        ("public <a> = [<VOID>] [<b>]; <b> = <VOID>;", 0),
        (f"public <a> = {'<d> ' * 7}; {DIGIT}", 50),
        (f"public <a> = <d>+; {DIGIT}", 50),
        (f"public <a> = {'[<d>] ' * 7} mils; {DIGIT}", 50),
    ],
)
def test_few_phrases(body: str, most: int) -> None:
    """Ten million sentences, or endlessly many, need a handful of phrases."""
    assert len(compile_grammar(read(body)).phrases()) <= most


def test_pairs_are_shown_about_equally_often() -> None:
    """No digit is shown after another more than twice as often as a third: a number's cost is no accident."""
    often = shown(compile_grammar(read(f"public <a> = <d>+; {DIGIT}")).phrases())
    between = [count for pair, count in often.items() if EDGE not in pair]
    assert (1, 2) == (min(between), max(between))


def test_short_phrases_are_shown_again() -> None:
    """A short command is shown more often than it must be, so that it costs no more than a number's words."""
    listed = compile_grammar(read(f"public <a> = stop | <d>+ mils; {DIGIT}")).phrases()
    assert 1 + SHORT == listed.count("stop")


def test_what_must_be_shown_again_is_taken_in_turn() -> None:
    """Of two ways home as short as each other none is shown twice as often as the other."""
    ways = {EDGE: ("a",), "a": tuple("bcdefgh"), **dict.fromkeys("bcdefgh", ("y", "z"))}
    often = shown(phrases({**ways, "y": (EDGE,), "z": (EDGE,)}))
    assert 1 / 2 < often["y", EDGE] / often["z", EDGE] < 2
