"""Which sentence was said, if any."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.judge import (
    BEHIND_DB,
    FAR_DB,
    SCALE,
    SOUND,
    TOLD,
    WEIGHED,
    Evidence,
    Needs,
    candidates,
    judge,
)
from handsfree.phrases.meaning import by_words
from handsfree.signals import Alternative, Ambiguous, Heard, Node, NotUnderstood, Outcome, Utterance
from tests.phrases.oracle import read

GRAMMAR = compile_grammar(
    read("""
    public <volume> = [give] [the] <whole> mils;
    public <fluid> = [it's] (saline | salt water) {saline} | dextrose {dextrose};
    public <next> = next | go on;
    public <door> = open the door | close the door;
    public <yes> = correct;
    <whole> = <digits> | fifteen {15} | fifty {50};
    <digits> = <one> <five>;
    <one> = one {1};
    <five> = five {5};
    """)
)


def utterance(*scored: tuple[str, float]) -> Utterance:
    return Utterance(tuple(Alternative(tuple(words.split()), score) for words, score in scored))


@pytest.mark.parametrize(
    ("scored", "said"),
    [
        ([("next", 0.0)], "next"),
        ([("next", 310.4), ("go next", 300.2)], "next"),
        ([("go next", 310.4), ("next", 310.2)], "next"),
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
    ("readings", "said"),
    [
        # words, score, price: likelier for the recogniser because more usual, not because of its sound
        ([("one five mils", 310.0, 9.0), ("fifty mils", 312.0, 3.0)], "one five mils"),
        ([("one five mils", 310.0, 9.0), ("fifty mils", 316.0, 3.0)], None),
    ],
)
def test_what_was_expected_does_not_decide(
    readings: list[tuple[str, float, float]], said: str | None
) -> None:
    """Which sentence was said is asked of the sound alone."""
    alternatives = tuple(
        Alternative(tuple(words.split()), score, price=price) for words, score, price in readings
    )
    outcome = judge(GRAMMAR, Utterance(alternatives))
    if said is None:
        assert isinstance(outcome, Ambiguous)
    else:
        assert isinstance(outcome, Heard)
        assert said == outcome.text


@pytest.mark.parametrize(("behind", "found"), [(0.0, 1), (1.0, 1), (2.0, 2)])
def test_a_repair_is_tried_where_no_sentence_sounds_as_likely(behind: float, found: int) -> None:
    """“Fifteen to mils” may be “fifteen two mils”: what is left without the word was not said."""
    alike = utterance(("fifteen to mils", 310.0), ("fifty mils", 310.0 - behind))
    assert found == len(candidates(GRAMMAR, alike))


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


def test_numbers_and_lone_words_need_more() -> None:
    """A wrong number costs more than other wrong words; a lone word is found in anything, said by anyone."""
    needs = Needs(any=0.5, number=0.9, lone=0.95, far=0.98)
    said = (("one", "five", "mils"), ("go", "on"), ("next",), ("five",))
    assert [0.9, 0.5, 0.95, 0.95] == [needs.of(Node("said", words), FAR_DB - 1) for words in said]
    assert [0.9, 0.5, 0.98, 0.98] == [needs.of(Node("said", words), FAR_DB) for words in said]
    assert [0.9, 0.5, math.inf, math.inf] == [needs.of(Node("said", words), BEHIND_DB) for words in said]
    assert all(one.far > one.lone >= one.number > one.any for one in (WEIGHED, TOLD))


@pytest.mark.parametrize("piece", ["outside", "words", "behind", "unheard"])
def test_evidence_counts_its_way(piece: str) -> None:
    """A lead over what is outside and more words make it surer; a likelier reading and other sound less."""
    evidence = Evidence(behind=1.0, outside=1.0, words=2, noise=1.0, unheard=0.1)
    more = replace(evidence, **{piece: getattr(evidence, piece) + 1})
    assert (1 if piece in ("outside", "words") else -1) * (SCALE.likely(more) - SCALE.likely(evidence)) > 0


def test_numbers_that_sound_alike_need_twice_the_lead() -> None:
    """In noise a lead that is enough over another fluid leaves open whether fifteen or fifty was said."""

    def judged(lead: float, over_room_db: float, *said: str) -> Outcome:
        return judge(GRAMMAR, replace(utterance((said[0], lead), (said[1], 0.0)), over_room_db=over_room_db))

    assert isinstance(judged(3.0, 25.0, "saline", "dextrose"), Heard)
    assert isinstance(judged(3.5, 25.0, "fifty mils", "fifteen mils"), Ambiguous)
    assert isinstance(judged(3.5, 60.0, "fifty mils", "fifteen mils"), Heard)


def test_noise_makes_leads_worth_less() -> None:
    """The same lead tells less in noise; and no lead at all is never enough for one of two."""
    quiet, noisy = (SOUND.shares([0.0, -2.0], noise)[0] for noise in (0.0, 3.0))
    assert quiet > noisy > 0.5 == SOUND.shares([0.0, 0.0], 0.0)[0]


@pytest.mark.parametrize(("lost", "heard"), [(0.0, True), (0.02, True), (0.2, False), (1.0, False)])
def test_lost_sound_is_doubt(lost: float, heard: bool) -> None:
    """What was lost may have been a word: the confidence is less by its share."""
    whole = judge(GRAMMAR, utterance(("give the fifteen mils", 0.0)))
    outcome = judge(GRAMMAR, replace(utterance(("give the fifteen mils", 0.0)), lost=lost))
    assert heard is isinstance(outcome, Heard)
    assert math.isclose(outcome.confidence, (1 - lost) * whole.confidence)


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("the the clamp is shut", "the clamp is shut"),
        ("clamp shut", "clamp is shut"),
        ("the clamp is is shut", "the clamp is shut"),
        ("the clamp is shut please", "the clamp is shut"),
        ("clamp is not shut", ""),
        ("clamp", ""),
        ("set five five", ""),
        ("gloves off", ""),
    ],
)
def test_near_misses(heard: str, meant: str) -> None:
    """A small word lost, put in or doubled is mended; a number or a word that says something never is."""
    grammar = compile_grammar(
        read("""
        public <clamp> = [the] clamp is shut;
        public <gloves> = gloves on;
        public <set> = set (five | six);
        """)
    )
    outcome = judge(grammar, utterance((heard, 300.0)))
    assert meant == (outcome.text if isinstance(outcome, Heard) else "")


def test_a_miss_between_two_sentences_is_no_near_miss() -> None:
    """Where two sentences are as near as each other, none is taken."""
    grammar = compile_grammar(read("public <on> = the pump is on; public <left> = pump is the on;"))
    assert not isinstance(judge(grammar, utterance(("pump is on", 300.0))), Heard)


def test_the_same_words_are_never_asked_about() -> None:
    """Two ways through one rule that say the same words are one sentence."""
    grammar = compile_grammar(read("public <call> = <d> [<d> [<d>]]; <d> = <x> [<x>]; <x> = one | two;"))
    assert isinstance(judge(grammar, utterance(("one two one", 300.0))), Heard)


def test_a_grammar_that_means_two_things() -> None:
    """A sentence with two readings of different meaning is ambiguous, however sure the recogniser is."""
    grammar = compile_grammar(read("public <a> = go; public <b> = go;"))
    assert isinstance(judge(grammar, utterance(("go", 0.0))), Ambiguous)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("next", "go on", False),
        ("fifteen mils", "one five mils", True),
        ("fifteen mils", "fifty mils", False),
        ("give fifteen mils", "fifteen mils", True),
        ("saline", "salt water", True),
        ("saline", "dextrose", False),
        ("open the door", "close the door", False),
    ],
)
def test_meanings(one: str, other: str, same: bool) -> None:
    """What no tag says differs by its words."""
    first, second = (node for said in (one, other) for node in GRAMMAR.match(tuple(said.split())))
    assert same == (by_words(first) == by_words(second))


OPTIONAL = compile_grammar(
    read("""
    public <timer> = [set [a]] timer [for] <n> minutes;
    public <rows> = [number] (<n> | a hundred) rows;
    public <door> = (set | turn) the door [by | for] <n>;
    public <lift> = [up] lift [not] [minus] <n>;
    <n> = two | twelve | one hundred;
    """)
)


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ("set a timer for two minutes", "timer two minutes", True),
        ("set timer two minutes", "timer for two minutes", True),
        ("timer two minutes", "timer twelve minutes", False),
        ("number two rows", "two rows", True),
        ("one hundred rows", "a hundred rows", True),
        ("set the door two", "turn the door two", False),
        ("turn the door by two", "turn the door two", False),
        ("turn the door by two", "turn the door for two", False),
        ("lift two", "up lift two", False),
        ("lift two", "lift minus two", False),
        ("lift two", "lift not two", False),
    ],
)
def test_words_that_may_be_left_out(one: str, other: str, alike: bool) -> None:
    """Where the grammar marks them as optional and they say little, they change nothing; what turns a
    sentence round, and what is one of several choices, does."""
    (first,), (second,) = (OPTIONAL.match(tuple(said.split())) for said in (one, other))
    assert alike == (by_words(first) == by_words(second))


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
