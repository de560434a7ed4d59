"""Which sentence was said, if any."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.judge import judge
from handsfree.phrases.meaning import by_rule, by_words
from handsfree.signals import Alternative, Ambiguous, Heard, NotUnderstood, Utterance
from tests.phrases.oracle import read

GRAMMAR = compile_grammar(
    read("""
    public <volume> = [give] [the] <whole> mils;
    public <fluid> = [it's] (saline | salt water) {saline} | dextrose {dextrose};
    public <next> = next | go on;
    public <door> = open the door | close the door;
    public <yes> = correct;
    <whole> = one five | fifteen | fifty;
    """)
)


def utterance(*scored: tuple[str, float]) -> Utterance:
    return Utterance(tuple(Alternative(tuple(words.split()), score) for words, score in scored))


@pytest.mark.parametrize(
    ("scored", "said"),
    [
        ([("next", 0.0)], "next"),
        ([("next", 310.4), ("go next", 300.2)], "next"),
        ([("go next", 310.4), ("next", 309.0)], "next"),
        ([("fifteen mils", 310.4), ("fifty mils", 290.0)], "fifteen mils"),
        ([("fifteen mils", 310.4), ("one five mils", 310.3)], "fifteen mils"),
        ([("the fifteen mils", 310.4), ("fifteen mils", 310.3)], "the fifteen mils"),
        ([("it's saline", 310.4), ("salt water", 310.3)], "it's saline"),
        ([("fifteen mils", 310.4), ("fifty mils", 310.0)], None),
        ([("open the door", 310.4), ("close the door", 310.4)], None),
        ([("saline", 310.4), ("dextrose", 310.0)], None),
    ],
)
def test_heard_or_ambiguous(scored: list[tuple[str, float]], said: str | None) -> None:
    """The likeliest whole sentence is heard; one of another meaning too near makes it ambiguous."""
    outcome = judge(GRAMMAR, utterance(*scored))
    if said is None:
        assert isinstance(outcome, Ambiguous)
        assert [words for words, _ in scored] == [candidate.text for candidate in outcome.candidates]
    else:
        assert isinstance(outcome, Heard)
        assert said == outcome.text


@pytest.mark.parametrize(
    ("scored", "text"),
    [
        ([("", 0.0)], ""),
        ([("[unk]", 0.0)], ""),
        ([("[unk] [unk]", 5.0), ("", 4.0)], ""),
        ([("next [unk]", 5.0)], "next"),
        ([("go", 5.0), ("on go", 4.0)], "go"),
        ([("[unk]", 50.0), ("correct", 5.0)], ""),
        ([("go", 50.0), ("on", 49.0), ("correct", 40.0)], "go"),
    ],
)
def test_not_understood(scored: list[tuple[str, float]], text: str) -> None:
    """Silence, noise, speech outside the grammar and half sentences are not understood."""
    outcome = judge(GRAMMAR, utterance(*scored))
    assert isinstance(outcome, NotUnderstood)
    assert text == outcome.text


def test_a_margin_of_its_own() -> None:
    """A class of sentences can be made to need a greater lead than others, or none."""
    near = utterance(("correct", 310.0), ("next", 305.0))
    assert isinstance(judge(GRAMMAR, near), Heard)
    assert isinstance(judge(GRAMMAR, near, margins={"yes": 5.0}), Ambiguous)
    assert isinstance(judge(GRAMMAR, near, margins={"next": 5.0}), Heard)


def test_a_grammar_that_means_two_things() -> None:
    """A sentence with two readings of different meaning is ambiguous, however sure the recogniser is."""
    grammar = compile_grammar(read("public <a> = go; public <b> = go;"))
    assert isinstance(judge(grammar, utterance(("go", 0.0))), Ambiguous)


@pytest.mark.parametrize(
    ("one", "other", "words_alike", "rules_alike"),
    [
        ("next", "go on", False, True),
        ("fifteen mils", "one five mils", True, True),
        ("fifteen mils", "fifty mils", False, False),
        ("give fifteen mils", "fifteen mils", False, True),
        ("saline", "salt water", True, True),
        ("saline", "dextrose", False, False),
        ("open the door", "close the door", False, True),
    ],
)
def test_meanings(one: str, other: str, words_alike: bool, rules_alike: bool) -> None:
    """By words: what no tag says differs by its words. By rule: a public rule means one thing."""
    first, second = (node for said in (one, other) for node in GRAMMAR.match(tuple(said.split())))
    assert words_alike == (by_words(first) == by_words(second))
    assert rules_alike == (by_rule(first) == by_rule(second))


@given(
    st.lists(
        st.tuples(st.sampled_from(["next", "correct", "go", "[unk]", "saline"]), st.floats(-999, 999)),
        min_size=1,
    )
)
def test_never_fails_and_stays_in_bounds(scored: list[tuple[str, float]]) -> None:
    """Whatever the scores, there is an outcome, its confidence is a probability, candidates go best first."""
    outcome = judge(GRAMMAR, utterance(*scored))
    assert 0 <= outcome.confidence <= 1
    if isinstance(outcome, Ambiguous):
        confidences = [candidate.confidence for candidate in outcome.candidates]
        assert sorted(confidences, reverse=True) == confidences


@given(st.floats(-500, 500), st.floats(0, 40))
def test_only_differences_count(level: float, lead: float) -> None:
    """Scores have no zero; a greater lead never makes the judge less sure."""

    def sure(by: float) -> float:
        return judge(GRAMMAR, utterance(("next", level + by), ("go", level))).confidence

    assert math.isclose(
        sure(lead), judge(GRAMMAR, utterance(("next", lead), ("go", 0.0))).confidence, abs_tol=1e-6
    )
    assert sure(lead + 1) >= sure(lead) - 1e-9


def test_the_grammar_is_what_the_ears_ask() -> None:
    """The compiled grammar satisfies the port."""
    from handsfree.ports import Sentences

    def asked(sentences: Sentences) -> frozenset[str]:
        return sentences.words

    assert isinstance(GRAMMAR, Grammar)
    assert "mils" in asked(GRAMMAR)
