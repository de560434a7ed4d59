"""The shipped words are those of people who were not told them: hundreds of ways to say each step."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from handsfree.care.listening import listen
from handsfree.care.questions.question import Asked, Subject
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.hear.typed_words import typed_words
from handsfree.phrases.readings import reading
from handsfree.signals import Node
from handsfree.testing.dialogue import START
from tests.dialogues import lexicon, shipped
from tests.phrases.test_shipped import moment

NATURAL = tomllib.loads((Path(__file__).parent / "natural.toml").read_text("utf-8"))

WAYS = [(step, meant, said) for step, means in NATURAL.items() for meant, said in means.items()]

ASKED = Session(shipped(), START, step="kit", asked=Asked("flow; rate=75 mL/h", answered=True))
QUESTIONED = {
    "after_a_question": listen(ASKED),
    "while_something_is_missing": listen(replace(ASKED, mode=Mode.ASKING)),
}
"""Moments that no step makes."""

WAYS_OF_EACH = 8


def meanings(step: str, said: str) -> set[str]:
    """What a sentence may mean at a step: rule and value of each of its parts."""
    return {", ".join(_part(one) for one in _parts(node)) for node in _readings(step, said)}


def _readings(step: str, said: str) -> tuple[Node, ...]:
    listen = replace(QUESTIONED[step], asks="") if step in QUESTIONED else moment(step)
    return lexicon().grammar(listen).match(typed_words(said))


def _parts(node: Node) -> tuple[Node, ...]:
    return node.children if node.rule == "report" else (node,)


def _part(node: Node) -> str:
    return f"{node.rule} {reading(node)}"


@pytest.mark.parametrize(("step", "meant", "said"), WAYS, ids=[f"{row[0]}: {row[1]}" for row in WAYS])
def test_natural_ways_are_heard(step: str, meant: str, said: list[str]) -> None:
    """Each way of saying it means this and nothing else."""
    assert [] == [one for one in said if meanings(step, one) != {meant}]


def test_each_kind_of_question_has_many_ways() -> None:
    """Whatever is asked, there are eight ways or more of asking it."""
    ways = {meant: set(said) for meant, said in NATURAL["kit"].items()}
    asked = {subject: f"question {subject}" for subject in Subject}
    most = {
        one: max((len(said) for meant, said in ways.items() if meant.startswith(head)), default=0)
        for one, head in asked.items()
    }
    few = [one for one, number in most.items() if number < WAYS_OF_EACH]
    assert [] == few


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ("allergies", "no"),  # a critical check, and a word that comes out of other talk
        ("limb_to_avoid", "no"),
        ("clamp_shut", "clamped"),  # not to be told from "unclamped"
        ("clamp_shut", "close the clamp"),  # somebody's order, not a report
        ("tie", "tied"),  # nor from "untied"
        ("no_air", "none"),
        ("no_swelling", "none"),
        ("site_fine", "all good"),  # what people say to one another
        ("told", "explained"),
        ("needle_away", "needle safe"),  # not yet in the container
        ("hands", "hands are clean"),  # and the gloves?
        ("drop_factor", "micro drip"),  # no number is assumed
        ("order_fluid", "ringer's solution"),  # not the lactate
        ("clear", "not clear"),
        ("dry", "not dry"),
        ("flushes", "doesn't flush"),
        ("clamp_open", "not running"),
    ],
)
def test_what_closes_no_step(step: str, said: str) -> None:
    """What could be meant for others, or be the opposite with one small word lost, closes nothing."""
    words = {step.words for step in shipped().steps}
    assert not [one for one in meanings(step, said) if one.strip() in words or " " in one.strip()]
