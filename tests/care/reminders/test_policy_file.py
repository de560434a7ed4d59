"""A policy file is read, or refused by line with what to do."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.care.infusion.limits_file import read_limits
from handsfree.care.reminders.policy import Interval
from handsfree.care.reminders.policy_file import CASES, read_policy
from handsfree.errors import PolicyError, WrongUse
from handsfree.phrases.readings import reading
from handsfree.shelf import built_in_policy, policy_from
from handsfree.signals import Listen
from tests.dialogues import lexicon
from tests.house.documents import blocks

GOOD = """title = "Ward 4"

[[interval]]
kind = "site"
after = "2 h"
source = "ward"
edition = "1"
"""


def no_base(name: str) -> tuple[Interval, ...]:
    raise KeyError("common, ins")


def test_a_good_file() -> None:
    """Kinds, cases and lengths of time are read."""
    text = GOOD + '[[interval]]\nkind="hang"\ncase="lipid"\nafter="1d"\nsource="w"\nedition="2"\n'
    assert read_policy(text, "ward.toml", no_base) == (
        Interval("site", "", 7200, "ward", "1"),
        Interval("hang", "lipid", 86_400, "w", "2"),
    )


@pytest.mark.parametrize(
    ("text", "line", "wrong"),
    [
        ("title = ", 1, "not TOML"),
        (GOOD + "oops", 8, "not TOML"),
        ("colour = 1\n" + GOOD, 1, "the key colour is not known"),
        ("title = 4", 1, "title should be a text"),
        ('based_on = "mine"\n' + GOOD, 1, "no built-in policy 'mine'"),
        ("based_on = 7\n" + GOOD, 1, "no built-in policy 7"),
        ("[interval]\nkind = 'site'", 1, "begin each interval"),
        ("interval = 4", 1, "begin each interval"),
        ("interval = [1, 2]", 1, "begin each interval"),
        (GOOD.replace('"site"', '"sight"'), 4, "no reminder is called sight"),
        (GOOD.replace('"site"', '"own"'), 4, "no reminder is called own"),
        (GOOD.replace('"site"', '"bag_empty"'), 4, "no reminder is called bag_empty"),
        (GOOD.replace('"2 h"', '"2 hours"'), 5, "after should be"),
        (GOOD.replace('"2 h"', '"0 h"'), 5, "after should be"),
        (GOOD.replace('"2 h"', '"31 d"'), 5, "after should be"),
        (GOOD.replace('"2 h"', '"-2 h"'), 5, "after should be"),
        (GOOD.replace('"2 h"', "2"), 5, "no after in quotes"),
        (GOOD.replace('source = "ward"\n', ""), 3, "no source in quotes"),
        (GOOD.replace('edition = "1"\n', ""), 3, "no edition in quotes"),
        (GOOD + 'case = "adult"\n', 8, "no case is called adult"),
        (GOOD + "every = 3\n", 8, "the key every is not known"),
        (GOOD + GOOD.split("\n", 2)[2], 8, "site stands here twice"),
    ],
)
def test_a_bad_file_is_refused_by_line(text: str, line: int, wrong: str) -> None:
    """The line, what is wrong, and the next step, in one sentence or two."""
    with pytest.raises(PolicyError) as refused:
        read_policy(text, "ward.toml", no_base)
    assert refused.value.line == line
    assert wrong in str(refused.value)
    assert refused.value.next_step


@given(st.text(alphabet='[]="interval kidsourcflt\n0123h.', max_size=120))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Whatever stands in the file, it is a policy or a PolicyError."""
    try:
        assert isinstance(read_policy(text, "any.toml", no_base), tuple)
    except PolicyError as refused:
        assert refused.line >= 1


def test_the_documented_example() -> None:
    """The example of docs/policy.md works, and what it does not say is that of the policy it is based on."""
    example, limit = blocks("docs/policy.md", "toml")
    assert [one.quantity for one in read_limits(limit, "ward.toml")] == ["rate"]
    read = read_policy(example, "ward.toml", built_in_policy)
    lengths = {(one.kind, one.case): one.after_s for one in read}
    assert (lengths["site", ""], lengths["hang", "additive"], lengths["tubing", ""]) == (
        7200,
        43_200,
        604_800,
    )


@pytest.mark.parametrize("name", ["nobody", "/nowhere/ward.toml"])
def test_a_policy_that_is_not_there(name: str) -> None:
    """Neither built in nor a file: refused, with what to do."""
    with pytest.raises(WrongUse):
        policy_from(name)


def test_a_file_by_its_path(tmp_path: Path) -> None:
    """A path leads to a file of the user's own."""
    file = tmp_path / "ward.toml"
    file.write_text(GOOD, "utf-8")
    assert policy_from(str(file)).intervals == (Interval("site", "", 7200, "ward", "1"),)


def test_each_case_can_be_said() -> None:
    """The cases of a policy are those that the grammar has words for."""
    grammar = lexicon().grammar(Listen(("case",)))
    said = {reading(node) for words in grammar.sentences(limit=1000) for node in grammar.match(words)}
    assert said == set(CASES)
