"""The graph of words that a recogniser walks: the same sentences, and nothing twice."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.phrases.tree import Rules
from handsfree.ports import Graph
from handsfree.testing.sentences import ListedSentences
from tests.phrases.oracle import rule_sets, strings
from tests.phrases.test_random import LONGEST, compiled, thorough


def accepts(graph: Graph, words: tuple[str, ...]) -> bool:
    """Whether a walk along the words ends where a sentence may."""
    state = 0
    for word in words:
        if word not in graph.moves[state]:
            return False
        state = graph.moves[state][word]
    return state in graph.ends


@thorough
@given(rule_sets())
def test_the_graph_has_the_sentences_and_no_other(rules: Rules) -> None:
    """A walk ends well exactly where the grammar matches."""
    grammar = compiled(rules)
    graph = grammar.graph()
    for words in strings(LONGEST):
        assert bool(grammar.match(words)) == accepts(graph, words), words


def test_what_is_written_twice_stands_once() -> None:
    """Alternatives that end alike share their end; a loop comes back to its state."""
    text = "#JSGF V1.0; grammar g; public <s> = red <many> | blue <many>; <many> = one | two <many>;"
    graph = compile_grammar(read_grammar(text, "g.jsgf")).graph()

    assert Graph(({"red": 1, "blue": 1}, {"one": 2, "two": 1}, {}), frozenset({2})) == graph


def test_a_list_has_a_graph_too() -> None:
    """The fake keeps the same promise."""
    graph = ListedSentences("a b", "a", "c b").graph()

    assert [True, True, True] == [accepts(graph, words) for words in (("a", "b"), ("a",), ("c", "b"))]
    assert [False, False, False] == [accepts(graph, words) for words in ((), ("c",), ("a", "b", "b"))]


SENTENCES = st.lists(st.sampled_from("abc"), min_size=1, max_size=3).map(" ".join)


@given(st.lists(SENTENCES, min_size=1, max_size=5))
def test_a_list_is_as_a_grammar(sentences: list[str]) -> None:
    """The fake tells what is a sentence, and whether more can follow, as the same written in JSGF does."""
    text = f"#JSGF V1.0; grammar listed; public <said> = {' | '.join(sentences)};"
    grammar, listed = compile_grammar(read_grammar(text, "listed.jsgf")), ListedSentences(*sentences)

    for words in (tuple(one.split()[:length]) for one in (*sentences, "c b a") for length in range(4)):
        assert grammar.standing(words) == listed.standing(words)
        assert bool(grammar.match(words)) == bool(listed.match(words))
