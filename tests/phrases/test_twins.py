"""Numbers that sound alike are in doubt in a question, where an ear proposed both."""

from __future__ import annotations

import pytest

from handsfree.phrases.readings import reading
from handsfree.said import judged
from handsfree.signals import Alternative, Ambiguous, Heard, Listen, Outcome, Utterance
from tests.dialogues import lexicon

GRAMMAR = lexicon().grammar(Listen(("question", "rate")))

LEAD = 7.0
"""Nats by which the first reading leads the second: enough for any other two sentences."""


def heard(*readings: str) -> Outcome:
    """What becomes of readings, the likeliest first."""
    ways = (Alternative(tuple(said.split()), -LEAD * place) for place, said in enumerate(readings))
    return judged(GRAMMAR, Utterance(tuple(ways)))


@pytest.mark.parametrize(
    ("said", "other"),
    [
        ("catch up 400 left and nineteen minutes to go", "catch up 400 left and ninety minutes to go"),
        ("what dose is fifty mils an hour", "what dose is fifteen mils an hour"),
        ("draw up sixteen milligrams", "draw up sixty milligrams"),
    ],
)
def test_a_number_before_a_nasal_is_in_doubt(said: str, other: str) -> None:
    """However far it leads: "ninety minutes" was heard as nineteen in two recordings."""
    one, two = (line.replace("400", "four hundred") for line in (said, other))
    outcome = heard(one, two)
    assert isinstance(outcome, Ambiguous)
    assert [one, two] == [candidate.text for candidate in outcome.candidates]
    assert len({reading(candidate.node) for candidate in outcome.candidates}) == 2


@pytest.mark.parametrize(
    "readings",
    [
        ("draw up sixteen milligrams",),  # the ear proposed no other, or it was typed
        ("how fast is one litre over thirteen hours", "how fast is one litre over thirty hours"),
        ("what dose is seventy five mils an hour", "what dose is seventy nine mils an hour"),
        ("at fifty mils an hour", "at fifteen mils an hour"),  # an answer is read back in any case
    ],
)
def test_others_are_not(readings: tuple[str, ...]) -> None:
    """Where the sounds differ, nothing was proposed, or the number is confirmed, nothing more is asked."""
    assert isinstance(heard(*readings), Heard)
