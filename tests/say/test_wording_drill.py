"""What is said in a drill: each of its events has words or a short sound, and nothing in it is long."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.care.drill.marks import CODES, Kind
from handsfree.care.drill.session import Mark, Run
from handsfree.say import wording_drill
from handsfree.say.wording_drill import chime, mark_words
from handsfree.testing.dialogue import START
from tests.care.drill.drills import drilled
from tests.say.test_wording import DRILLS

SOUNDS = {e.RunBegun, e.MarkMoved, e.MarkDropped, e.WordsKept, e.WordsMissed}
"""Answered by a short sound alone."""


@pytest.mark.parametrize("kind", sorted(DRILLS, key=lambda kind: kind.__name__))
def test_each_event_is_answered(kind: type) -> None:
    """By words or by a sound, by both where words are asked for."""
    assert (kind in wording_drill._SENTENCES) != (kind in SOUNDS)


@pytest.mark.parametrize(
    "event", [e.RunBegun(START), e.MarkMoved(1, 10), e.MarkDropped(1), e.WordsKept(1, "")]
)
def test_sounds(event: e.Event) -> None:
    """What is answered by a sound alone has one."""
    assert chime(event, drilled("go").session) is not None


def test_sentences_are_short() -> None:
    """Twenty words at most: they are heard, not read."""
    talk = drilled(
        "trainee anna", "go", "marks aloud", "gauge done", "needle stick", "this is real", "next trainee"
    )
    long = [part for line in talk.said for part in line.split(".") if len(part.split()) > 20]
    assert long == []


@pytest.mark.parametrize(
    ("marks", "said"),
    [
        ([Mark(1, Kind.MISSED, START, "hands")], "Hands, harvest"),
        ([Mark(1, Kind.UNSAFE, START)], "Umbrella"),
        ([Mark(1, Kind.LAP, START)], "Lap"),
        (
            [Mark(1, Kind.CLOCK_STARTED, START), Mark(2, Kind.CLOCK_STOPPED, START + timedelta(seconds=42))],
            "Clock, forty two seconds",
        ),
        ([Mark(2, Kind.CLOCK_STOPPED, START)], "Clock"),
    ],
)
def test_mark_words(marks: list[Mark], said: str) -> None:
    """The step and the code; of a clock what it took."""
    assert mark_words(marks[-1], Run("", START, marks=tuple(marks))) == said


def test_a_code_is_no_verdict() -> None:
    """None has a word of any verdict in it."""
    verdicts = {word for kind in CODES for word in kind.value.split()}
    assert verdicts.isdisjoint(CODES.values())
