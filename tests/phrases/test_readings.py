"""What a matched value means."""

from __future__ import annotations

import pytest

from handsfree.phrases.readings import by_reading, reading, tags
from handsfree.signals import Listen, Node
from tests.dialogues import lexicon


@pytest.mark.parametrize(
    ("rule", "said", "value"),
    [
        ("volume", "half a litre", "500"),
        ("volume", "nine hundred and ninety nine mils", "999"),
        ("rate", "at nought point five mils an hour", "1/2"),
        ("rate", "two and a half mils each hour", "5/2"),
        ("infusion_time", "over one hour and one minute", "61"),
        ("infusion_time", "over an hour and a half", "90"),
        ("just_infusion_time", "three quarters of an hour", "45"),
        ("expiry", "the twenty first of february twenty twenty eight", "2028-02-21"),
        ("expiry", "end of december two oh two nine", "2029-12"),
        ("count", "seven in thirty", "7/30"),
        ("count", "one hundred and four in a minute", "104/60"),
        ("gauge", "pink twenty", "20"),
        ("gauge", "pink eighteen", "20/18"),
        ("site", "the left upper arm", "left upper arm"),
        ("site", "back of the left hand", "left hand"),
        ("identity", "tag nine oh one", "tag 901"),
        ("identity", "both identifiers checked", "two identifiers"),
        ("allergies", "not allergic to anything", "none"),
        ("reason", "the patient refused", "patient refused"),
        ("fluid", "whole blood", "blood"),
    ],
)
def test_reading(rule: str, said: str, value: str) -> None:
    """A sentence of a rule has this value, exact and in the rule's unit."""
    (node,) = lexicon().grammar(Listen((rule,))).match(tuple(said.split()))
    assert value == reading(node)


def test_a_rule_without_a_reading_gives_its_tags() -> None:
    """Own tags first, then those of the rules inside."""
    inside = Node("inner", ("b",), ("two",))
    node = Node("outer", ("a", "b"), ("one",), (inside,))
    assert list(tags(node)) == ["one", "two"]
    assert reading(node) == "one, two"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("a litre", "one thousand mils", True),
        ("a litre", "one hundred mils", False),
        ("allergic to latex", "she's allergic to latex", True),
        ("allergic to latex", "a tape allergy", False),
        ("green", "a green cannula", True),
        ("normal saline", "saline point nine percent", True),
        ("two attempts", "second try", True),
    ],
)
def test_the_same_for_a_session(one: str, other: str, same: bool) -> None:
    """Sentences are the same where the session gets the same answers with the same values."""
    grammar = lexicon().grammar(Listen((), ("volume", "allergies", "gauge", "fluid", "attempts")))
    first, second = (grammar.match(tuple(said.split()))[0] for said in (one, other))
    assert (by_reading(first) == by_reading(second)) is same
