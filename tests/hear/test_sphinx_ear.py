"""The graph without one sentence, in which PocketSphinx finds what else may have been said."""

from __future__ import annotations

import pytest

from handsfree.hear.sphinx_ear import without
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.ports import Graph

TEXT = "#JSGF V1.0; grammar g; public <s> = a [b] | c <more>; <more> = (a | b) [<more>];"


def accepts(graph: Graph, start: int, words: str) -> bool:
    """Whether a walk along the words ends where a sentence may."""
    state = start
    for word in words.split():
        if word not in graph.moves[state]:
            return False
        state = graph.moves[state][word]
    return state in graph.ends


@pytest.mark.parametrize("gone", ["a", "a b", "c a", "c a b a"])
def test_one_sentence_is_taken_out_and_no_other(gone: str) -> None:
    """Its beginnings and its continuations stay, loops too."""
    graph = compile_grammar(read_grammar(TEXT, "g.jsgf")).graph()
    others, start = without(graph, tuple(gone.split()))
    for said in ("a", "a b", "c a", "c b", "c a b", "c a b a", "c a b a b", "c a b b", "c", "b"):
        assert (accepts(graph, 0, said) and said != gone) == accepts(others, start, said), said
