"""Speech that says the opposite of a sentence is told from it, and is never taken for it.

How words are turned into their opposite (un-, in-, im-, ir-, dis-, n't, not): common English grammar, for
example Quirk, Greenbaum, Leech and Svartvik, A Comprehensive Grammar of the English Language (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain, pairwise

import pytest

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.judge import judge
from handsfree.phrases.opposites import turned, undone
from handsfree.phrases.spelling import knows_all
from handsfree.signals import Alternative, Ambiguous, Heard, Utterance
from tests.phrases.oracle import read

GRAMMAR = compile_grammar(
    read("""
    public <valve> = (open | close) the valve;
    public <pump> = [the] pump (is | was | can be) (locked | muted | connected | correct | on);
    public <undone> = the strap is (tied | untied);
    """)
)

PAIRS = [
    ("open the valve", "don't open the valve"),
    ("open the valve", "do not open the valve"),
    ("close the valve", "never close the valve"),
    ("pump is locked", "pump is unlocked"),
    ("pump is locked", "pump isn't locked"),
    ("pump is locked", "pump is not locked"),
    ("pump is muted", "pump is unmuted"),
    ("the pump is connected", "the pump is disconnected"),
    ("the pump was correct", "the pump was incorrect"),
    ("the pump can be on", "the pump can't be on"),
    ("the strap is tied", "the strap isn't tied"),
]


@pytest.mark.parametrize(("sentence", "opposite"), PAIRS)
def test_every_opposite_can_be_heard(sentence: str, opposite: str) -> None:
    """Each of its neighbouring words stands together in some phrase for the ear."""
    beside = {pair for phrase in (*GRAMMAR.phrases(), *GRAMMAR.opposites()) for pair in _pairs(phrase)}
    assert set(_pairs(opposite)) <= beside


@pytest.mark.parametrize(("sentence", "opposite"), PAIRS)
def test_what_it_is_the_opposite_of(sentence: str, opposite: str) -> None:
    """And it is known for the opposite of the sentence."""
    assert tuple(sentence.split()) in undone(tuple(opposite.split()), GRAMMAR.words)


@pytest.mark.parametrize(
    ("lead", "heard"), [(-9.0, False), (-1.0, False), (0.0, False), (1.0, True), (9.0, True)]
)
def test_a_sentence_has_to_lead_its_opposite(lead: float, heard: bool) -> None:
    """The opposite is never heard and never asked about; where it is as likely, nor is the sentence."""
    readings = (Alternative(("pump", "is", "locked"), lead), Alternative(("pump", "is", "unlocked"), 0.0))
    outcome = judge(GRAMMAR, Utterance(tuple(sorted(readings, key=lambda one: -one.score))))
    assert heard is isinstance(outcome, Heard)
    assert not isinstance(outcome, Ambiguous)


def test_an_opposite_that_can_be_said_is_a_sentence() -> None:
    """Where the grammar has both, the likelier one is heard."""
    words = ("the", "strap", "is", "untied")
    outcome = judge(GRAMMAR, Utterance((Alternative(words, 9.0), Alternative((*words[:3], "tied"), 0.0))))
    assert isinstance(outcome, Heard)
    assert outcome.node.words == words


def test_an_opposite_that_the_ear_lacks_is_heard_in_two_words() -> None:
    """Unmuted is in few models, "un" in most."""
    phrases = ("pump is muted", "pump is locked")
    phrases = turned(phrases, _follows(phrases), lambda word: word != "unmuted")
    pairs = {pair for phrase in phrases for pair in _pairs(phrase)}
    assert {("is", "un"), ("un", "muted"), ("is", "unlocked")} <= pairs
    assert ("un", "locked") not in pairs
    assert ("pump", "is", "muted") in undone(("pump", "is", "un", "muted"), GRAMMAR.words)
    assert () == tuple(undone(("pump", "un", "on"), GRAMMAR.words))


def test_no_more_phrases_than_are_needed() -> None:
    """Each phrase brings a pair of neighbours that none before it brought."""
    seen = {pair for phrase in GRAMMAR.phrases() for pair in _pairs(phrase)}
    for phrase in turned(GRAMMAR.phrases(), _follows(GRAMMAR.phrases()), knows_all):
        assert not set(_pairs(phrase)) <= seen
        seen |= set(_pairs(phrase))


def _pairs(phrase: str) -> list[tuple[str, str]]:
    return list(pairwise(("", *phrase.split(), "")))


def _follows(phrases: Iterable[str]) -> dict[str, set[str]]:
    follows: dict[str, set[str]] = {}
    for before, after in chain.from_iterable(map(_pairs, phrases)):
        follows.setdefault(before, set()).add(after)
    return follows
