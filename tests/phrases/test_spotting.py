"""Answers in the midst of other words, and none that was denied."""

from __future__ import annotations

import pytest

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.spotting import spotted
from handsfree.signals import Alternative, Utterance
from tests.phrases.oracle import read

COMMON = frozenset(("right", "hand", "on", "in", "so", "then", "the", "but"))

GRAMMAR = compile_grammar(
    read("""
    public <report> = <hands> | <clamp> | <site> | <air> | <again> | <prime> | <antiseptic>;
    <prime> = primed;
    <antiseptic> = chlorhexidine;
    <hands> = cleaned my hands | gloves on;
    <clamp> = clamp [is] shut;
    <site> = right hand | left hand;
    <air> = no air in line;
    <again> = [still] no air in line;
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
        ("when the clamp is shut i go on", ()),
        ("once i cleaned my hands the clamp is shut", ("clamp",)),
    ],
)
def test_what_is_denied_is_not_spotted(said: str, found: tuple[str, ...]) -> None:
    """An answer directly behind a word that turns it round is none; what was said before that is."""
    utterance = Utterance((Alternative(tuple(said.split())),))
    assert found == tuple(one.node.rule for one in spotted(GRAMMAR, utterance, lambda node: ""))


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("primed", ("prime",)),
        ("so primed then", ()),
        ("so the clamp is shut primed then", ("clamp",)),
        ("so chlorhexidine then", ("antiseptic",)),
    ],
)
def test_a_lone_word_is_long_or_said_alone(said: str, found: tuple[str, ...]) -> None:
    """A short word is soon heard in the midst of others; alone, or in an answer of several, it counts."""
    utterance = Utterance((Alternative(tuple(said.split())),))
    assert found == tuple(one.node.rule for one in spotted(GRAMMAR, utterance, lambda node: ""))


def test_what_talk_was_charged_for_is_given_back_in_part() -> None:
    """Of two readings the one that holds an answer is not likelier only because its words were cheaper."""
    talk = Alternative(("so", "the", "next", "thing", "is"), -2.0, price=70.0)
    forced = Alternative(("so", "right", "hand", "is"), 0.0, price=40.0)
    assert () == spotted(GRAMMAR, Utterance((forced, talk)), lambda node: "", COMMON)
    assert spotted(GRAMMAR, Utterance((forced,)), lambda node: "", COMMON)


@pytest.mark.parametrize(("price", "found"), [(0.0, True), (2.0, True), (6.0, False)])
def test_a_short_answer_has_to_sound_as_likely_as_other_talk(price: float, found: bool) -> None:
    """However much cheaper it was: what talk was charged more is no lead in its sound."""
    talk = Alternative(("so", "clothes", "on", "then"), -8.0, price=40.0 + 8.0 + price)
    forced = Alternative(("so", "gloves", "on", "then"), 0.0, price=40.0)
    assert found is bool(spotted(GRAMMAR, Utterance((forced, talk)), lambda node: "", COMMON))


def heard(*readings: tuple[str, float]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Answers, with others that their words belong to, in readings and how far each is behind the first."""
    alternatives = tuple(
        Alternative(tuple(said.split()), -behind, ends_s=tuple(range(1, len(said.split()) + 1)))
        for said, behind in readings
    )
    found = spotted(GRAMMAR, Utterance(alternatives), lambda node: "", COMMON)
    return tuple((one.node.rule, one.also) for one in found)


@pytest.mark.parametrize(
    ("readings", "found"),
    [
        pytest.param((("so right hand then", 0), ("so right and then", 0.5)), (), id="few words, not in all"),
        pytest.param((("so right hand then", 0),), (("site", ()),), id="few words, in all"),
        pytest.param((("so gloves on then", 0), ("so clothes on then", 0)), (("hands", ()),), id="by weight"),
        pytest.param(
            (("so gloves on then", 0), ("so left hand then", 0.1)), (("hands", ()),), id="one of two"
        ),
        pytest.param((("so clothes on then", 0), ("so gloves on then", 4)), (), id="far behind"),
        pytest.param(
            (("still no air in line", 0), ("till no air in line", 0.2)),
            (("again", ()),),
            id="more hold one rule",
        ),
        pytest.param((("then no air in line", 0),), (("air", ("again",)),), id="words of two rules"),
    ],
)
def test_what_is_sure_enough(
    readings: tuple[tuple[str, float], ...], found: tuple[tuple[str, tuple[str, ...]], ...]
) -> None:
    """An answer needs half of the likelihood, one of few or common words nearly all of it."""
    assert found == heard(*readings)
