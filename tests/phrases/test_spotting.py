"""Answers in the midst of other words, and none that was denied."""

from __future__ import annotations

import pytest

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.spotting import spotted
from handsfree.signals import Alternative, Utterance
from tests.phrases.oracle import read

GRAMMAR = compile_grammar(
    read("""
    public <report> = <hands> | <clamp>;
    <hands> = cleaned my hands;
    <clamp> = clamp [is] shut;
    """)
)


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("so i cleaned my hands and the clamp is shut", ("hands", "clamp")),
        ("i have not cleaned my hands and the clamp is shut", ("clamp",)),
        ("i haven't cleaned my hands", ()),
        ("never cleaned my hands", ()),
        ("the clamp isn't shut", ()),
        ("the clamp is not shut", ()),
        ("i did not forget i cleaned my hands", ("hands",)),
    ],
)
def test_what_is_denied_is_not_spotted(said: str, found: tuple[str, ...]) -> None:
    """An answer directly behind a word that turns it round is none; what was said before that is."""
    utterance = Utterance((Alternative(tuple(said.split())),))
    assert found == tuple(one.node.rule for one in spotted(GRAMMAR, utterance, lambda node: ""))
