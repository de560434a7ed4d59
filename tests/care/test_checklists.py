"""The shipped checklists besides the long one: each is walked through, and each sentence means one thing."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from handsfree.care.listening import listen
from handsfree.care.rules import QUESTIONS, Mode
from handsfree.care.session import Session
from handsfree.care.vocabulary import vocabulary
from handsfree.errors import ChecklistError
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.shelf import checklist_from
from handsfree.testing.dialogue import START, talk
from handsfree.testing.disjoint import ambiguity, overlap
from handsfree.wiring import read_shipped, resources, sounds

WALKS = {
    "site_check": (
        *("no swelling", "no leak", "not cold", "not pale", "not numb", "no pain", "no redness", "not hard"),
        *("no cord", "no fever", "noted", "dressing is clean", "it's running"),
    ),
    "bag_change": (
        *("saline", "correct", "500 mils", "correct", "sodium chloride 0.9 percent", "expires june 2033"),
        *("it's clear", "clamp shut", "spiked", "no air", "clamp open"),
    ),
    "flush_lock": ("expires june 2033", "port wiped", "draws back", "flushes easily", "no swelling"),
    "handover": ("told", "told", "told", "told", "told", "read back done", "they take over"),
    "remove_line": (
        "gloved",
        "clamp closed",
        "it's out",
        "tip is whole",
        "+120",
        "bleeding stopped",
        "covered",
    ),
}


@cache
def read(name: str) -> tuple[Checklist, Lexicon]:
    checklist = checklist_from(name)
    return checklist, Lexicon(vocabulary(checklist), read_shipped, knows_all, sounds())


def test_each_is_walked_through_here_or_in_the_dialogues() -> None:
    """No shipped checklist is left out."""
    there = {one.stem for one in resources().checklists.glob("*.toml")}
    assert there == {*WALKS, "peripheral_iv", "emergencies"}


@pytest.mark.parametrize("name", WALKS)
def test_each_is_walked_through(name: str) -> None:
    """Said in order, the steps close, and nothing is left open."""
    done = talk(WALKS[name], *read(name))
    assert done.session.open_steps() == ()
    assert done.last.endswith("Every step is done. Say end session to finish.")


@pytest.mark.parametrize("name", WALKS)
def test_no_sentence_is_two_commands(name: str) -> None:
    """At each moment the rules that can be said are disjoint, and each answer has one reading.

    Questions about numbers may be parted in several ways that mean the same: tests/care/questions.
    """
    checklist, lexicon = read(name)
    moments = {
        replace(listen(Session(checklist, START, step=step.name, mode=mode)), asks="")
        for step in checklist.steps
        for mode in (Mode.WALKING, Mode.STOPPED, Mode.REASONING, Mode.HELD)
    }
    for moment in moments:
        assert overlap(lexicon.grammar(moment)) is None
        commands = (rule for rule in moment.rules if rule not in QUESTIONS)
        alone = replace(moment, rules=(*commands, *moment.answers), answers=())
        assert ambiguity(lexicon.grammar(alone)) is None


@pytest.mark.parametrize(
    ("name", "said", "first"),
    [
        ("site_check", "it's leaking", "Stop the infusion."),
        ("site_check", "it's numb", "Stop the infusion."),
        ("flush_lock", "resistance", "Stop."),
        ("remove_line", "tip is broken", "Tourniquet high"),
    ],
)
def test_what_is_found(name: str, said: str, first: str) -> None:
    """A bad sign is answered by what local protocol usually wants."""
    assert talk((said,), *read(name)).last.startswith(first)


@pytest.mark.parametrize("taken", ["level", "back", "whole"])
def test_a_name_that_is_taken_is_refused_by_line(taken: str) -> None:
    """A step cannot be called as a command or a part of the shipped grammars is."""
    text = (resources().checklists / "remove_line.toml").read_text("utf-8").replace("tip_whole", taken)
    with pytest.raises(ChecklistError, match="is taken") as refused:
        Lexicon(vocabulary(read_checklist(text, "mine.toml")), read_shipped, knows_all, sounds())
    assert refused.value.line == text[: text.index(f'name = "{taken}"')].count("\n")
