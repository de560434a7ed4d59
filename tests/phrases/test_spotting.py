"""Answers in the midst of other words, and none that was denied."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.spotting import VALUE_SURE, spotted
from handsfree.signals import Alternative, Utterance
from tests.phrases.oracle import read

COMMON = frozenset(("right", "hand", "on", "in", "so", "then", "the", "but"))

GRAMMAR = compile_grammar(
    read("""
    public <report> = <hands> | <clamp> | <site> | <air> | <again> | <prime> | <antiseptic> | <needle>
        | <away>;
    <needle> = needle goes in;
    <away> = needle goes in the box;
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


def readings(*said: tuple[str, float]) -> tuple[Alternative, ...]:
    """Readings and how far each is behind the first; each word lasts a second."""
    return tuple(
        Alternative(tuple(words.split()), -behind, ends_s=tuple(range(1, len(words.split()) + 1)))
        for words, behind in said
    )


def heard(
    said: tuple[Alternative, ...], dictated: tuple[Alternative, ...]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Answers, with others that their words belong to."""
    found = spotted(GRAMMAR, Utterance(said, dictated=dictated), lambda node: "", COMMON)
    return tuple((one.node.rule, one.also) for one in found)


GLOVES, CLOTHES = ("so gloves on then", 0), ("so clothes on then", 0)
HAND, AND = ("so right hand then", 0), ("so right and then", 0.5)
STILL, TILL, THEN = ("still no air in line", 0), ("till no air in line", 0.2), ("then no air in line", 0)
HANDS, SITE = ("hands", ()), ("site", ())


@pytest.mark.parametrize(
    ("said", "dictated", "found"),
    [
        pytest.param((GLOVES,), (GLOVES,), (HANDS,), id="both hear it"),
        pytest.param((GLOVES, CLOTHES), (CLOTHES, GLOVES), (HANDS,), id="each in half of its readings"),
        pytest.param((CLOTHES,), (GLOVES,), (HANDS,), id="dictation alone"),
        pytest.param((GLOVES, CLOTHES), (("so he loves hornets", 0),), (), id="the grammar alone, in half"),
        pytest.param((("so clamp is shut then", 0),), (("so clam is shut then", 0),), (("clamp", ()),),
                     id="dictation hears something like it"),
        pytest.param((HAND, AND), (AND,), (), id="few letters, in half, and not dictated"),
        pytest.param((("left gloves on primed", 0),), (("lift gloss and pride", 0),), (), id="among strays"),
        pytest.param((HAND, ("so left hand then", 0.1)), (HAND,), (SITE,), id="one of two"),
        pytest.param((STILL, TILL), (STILL,), (("again", ()),), id="more hold one rule"),
        pytest.param((("needle goes and the box", 0), ("needle goes in the box", 3)),
                     (("needle goes in the books", 0),), (("away", ()),), id="one within another"),
        pytest.param((THEN,), (THEN,), (("air", ("again",)),), id="words of two rules"),
    ],
)  # fmt: skip
def test_what_is_sure_enough(
    said: tuple[tuple[str, float], ...],
    dictated: tuple[tuple[str, float], ...],
    found: tuple[tuple[str, tuple[str, ...]], ...],
) -> None:
    """An answer that dictation hears too, or something like it in the same place."""
    assert found == heard(readings(*said), readings(*dictated))


LEFT, RIGHT = ("so left hand then", 0), ("so right hand then", 0)


@pytest.mark.parametrize(
    ("said", "dictated", "sure"),
    [
        ((LEFT,), (LEFT,), True),
        ((LEFT, RIGHT), (LEFT,), True),
        ((LEFT, RIGHT), (LEFT, RIGHT), False),
        ((LEFT,), (RIGHT,), False),
        ((LEFT, ("so lift hand then", -1)), (("so the left hand then", 3), ("so lift hand then", 0)), False),
    ],
)
def test_a_value_needs_most_of_the_readings(
    said: tuple[tuple[str, float], ...], dictated: tuple[tuple[str, float], ...], sure: bool
) -> None:
    """The answer counts all the same."""
    utterance = Utterance(readings(*said), dictated=readings(*dictated))
    (one,) = spotted(GRAMMAR, utterance, lambda node: " ".join(node.words), COMMON)
    assert sure is (one.value_sure >= VALUE_SURE)


SHUT, NOT_SHUT = ("so the clamp is shut", 0), ("so the clamp isn't shut", 0.5)


@pytest.mark.parametrize(
    ("said", "dictated", "found"),
    [
        pytest.param((SHUT,), (SHUT,), (("clamp", ()),), id="said"),
        pytest.param(
            (SHUT, NOT_SHUT), (("so the clam is shut", 0),), (("clamp", ()),), id="in more readings"
        ),
        pytest.param(
            (("so the clamp isn't shut", -2), SHUT), (SHUT, ("the clamp isn't shut", -2)), (), id="in fewer"
        ),
        pytest.param((SHUT,), (("so the clamp is not shut", -3), SHUT), (("clamp", ()),), id="by one of two"),
        pytest.param(
            (SHUT, ("so before the clamp is shut", -2)), (("so before the clamp", 0),), (), id="not yet"
        ),
    ],
)
def test_what_more_readings_deny_is_not_spotted(
    said: tuple[tuple[str, float], ...],
    dictated: tuple[tuple[str, float], ...],
    found: tuple[tuple[str, tuple[str, ...]], ...],
) -> None:
    """However much it sounds like what was said."""
    assert found == heard(readings(*said), readings(*dictated))


@pytest.mark.parametrize(("later_s", "found"), [(0, (HANDS,)), (9, ())])
def test_dictation_counts_in_the_same_place_alone(later_s: int, found: tuple[object, ...]) -> None:
    """Other words of the breath, even if they are the same, are no echo."""
    (dictated,) = readings(("so on gloves", 0))
    later = replace(dictated, ends_s=tuple(end_s + later_s for end_s in dictated.ends_s))
    assert found == heard(readings(GLOVES, CLOTHES), (later,))
