"""What must hold for every grammar."""

from __future__ import annotations

from itertools import islice

from hypothesis import HealthCheck, assume, given, settings

from handsfree.errors import GrammarError
from handsfree.phrases import recursion
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.phrases.tree import Rules
from handsfree.ports import Standing
from handsfree.signals import Node
from handsfree.testing.disjoint import ambiguity, overlap
from tests.phrases.oracle import accepts, rule_sets, strings
from tests.phrases.written import written

LONGEST = 5
thorough = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def compiled(rules: Rules) -> Grammar:
    """The grammar of random rules; those that the reader would refuse are passed over."""
    try:
        recursion.check(rules)
    except GrammarError:
        assume(False)
    return compile_grammar(rules)


@thorough
@given(rule_sets())
def test_matches_what_the_tree_says(rules: Rules) -> None:
    """A string is matched exactly where a plain reading of the tree accepts it."""
    grammar = compiled(rules)
    for words in strings(LONGEST):
        assert accepts(rules, words) == bool(grammar.match(words)), words


@thorough
@given(rule_sets())
def test_enumerates_all_and_only_sentences(rules: Rules) -> None:
    """Enumeration gives each sentence once, shortest first, and every one up to a length."""
    grammar = compiled(rules)
    listed = list(islice(grammar.sentences(200), 200))
    short = [words for words in listed if len(words) <= 3]
    assert len(listed) == len(set(listed))
    assert sorted(listed, key=len) == listed
    assert {words for words in strings(3) if accepts(rules, words)} == set(short) or len(listed) == 200


@thorough
@given(rule_sets())
def test_standing_agrees_with_the_sentences(rules: Rules) -> None:
    """Words are possible, complete and open to more just as the sentences that begin with them say."""
    grammar = compiled(rules)
    sentences = {words for words in strings(LONGEST) if accepts(rules, words)}
    for words in strings(2):
        longer = any(one[: len(words)] == words and len(one) > len(words) for one in sentences)
        complete = words in sentences
        standing = grammar.standing(words)
        assert complete == standing.complete
        assert Standing(complete or standing.more, complete, standing.more, standing.counting) == standing
        assert standing.more or not standing.counting
        assert standing.more or not longer


@thorough
@given(rule_sets())
def test_what_is_written_reads_back(rules: Rules) -> None:
    """The exported text has the same sentences."""
    grammar = compiled(rules)
    again = compile_grammar(read_grammar(written(grammar.rules), "again.jsgf"))
    for words in strings(LONGEST):
        assert bool(grammar.match(words)) == bool(again.match(words)), words


@thorough
@given(rule_sets())
def test_a_witness_is_true_and_none_is_a_proof(rules: Rules) -> None:
    """A witness is read in two ways; without one no short sentence is, and no rules share one."""
    grammar = compiled(rules)
    found, common = ambiguity(grammar), overlap(grammar)
    readings = {words: grammar.match(words) for words in strings(4)}
    if found:
        assert len(set(found.readings)) == 2
        assert set(found.readings) <= set(grammar.match(found.sentence))
    else:
        assert all(len(nodes) < 2 for nodes in readings.values())
    if not common:
        assert all(len({node.rule for node in nodes}) < 2 for nodes in readings.values())


@thorough
@given(rule_sets())
def test_a_reading_is_a_tree_over_its_words(rules: Rules) -> None:
    """A reading covers the sentence, and each rule's words hold those of the rules inside it, in order."""
    grammar = compiled(rules)
    for words in grammar.sentences(30):
        for node in grammar.match(words):
            assert words == tuple(" ".join(node.words).split())
            assert _nested(node)


def _nested(node: Node) -> bool:
    left = iter(node.words)
    inside = [word for child in node.children for word in child.words]
    return all(word in left for word in inside) and all(map(_nested, node.children))
