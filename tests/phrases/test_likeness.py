"""Sentences that sound alike are found, by the pronunciations of a published dictionary (CMUdict)."""

from __future__ import annotations

import pytest

from handsfree.hear.pronunciation import pronunciations
from handsfree.phrases.likeness import alike

ALIKE = [
    ("fifteen", "fifty", 1),
    ("flash", "flush", 1),
    ("tourniquet on", "tourniquet off", 1),
    ("pat the skin", "bat the skin", 1),
    ("cap it", "tap it", 0),
    ("no air in the line", "air in the line", 2),
]
"""The first three: what the trade warns of (common practice, no source). "cap" and "tap": Miller and Nicely
1955, voiceless stops are the first that noise makes one of; voicing is kept,
so that "pat" and "bat" are a sound apart."""

APART = [
    ("tourniquet on", "needle is away"),
    ("clamp is shut", "site is dry"),
    ("gloves on", "normal saline"),
    ("on", "off"),
]


def nearest(one: str, other: str) -> list[int]:
    words = {*one.split(), *other.split()}
    ours, others = {"one": [tuple(one.split())]}, {"other": [tuple(other.split())]}
    return [pair.apart for pair in alike(ours, others, pronunciations(words))]


@pytest.mark.parametrize(("one", "other", "apart"), ALIKE)
def test_are_found(one: str, other: str, apart: int) -> None:
    """With the number of sounds between them."""
    assert [apart] == nearest(one, other)


@pytest.mark.parametrize(("one", "other"), APART)
def test_are_left_alone(one: str, other: str) -> None:
    """What is far apart is not told, nor are words of two sounds: they are nothing but their difference."""
    assert [] == nearest(one, other)


def test_nearest_pair_stands_for_two_rules() -> None:
    """Two rules are named once, by the sentences that are nearest, whichever of them is asked about."""
    rules = {
        "tie": [("on",), ("tied",)],
        "untie": [("off",), ("untied",), ("tight",)],
    }
    words = {word for said in rules.values() for one in said for word in one}
    (pair,) = alike(rules, {}, pronunciations(words))

    assert ("tie", ("tied",), "untie", ("tight",), 1) == (
        pair.rule,
        pair.said,
        pair.other_rule,
        pair.other_said,
        pair.apart,
    )


def test_word_without_pronunciation_is_passed_over() -> None:
    """Nothing is said of a sentence whose sounds are not known."""
    assert [] == list(alike({"one": [("zyxgrobble",)]}, {"other": [("zyxgrobble",)]}, {}))
