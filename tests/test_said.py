"""When the words of a command ended: each part of a sentence by its own words, the whole with the speech."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from handsfree.said import understood
from handsfree.signals import Alternative, Heard, Node, Utterance

NOW = datetime(2031, 5, 4, 8, 0, tzinfo=UTC)

PARTS = (Node("tie", ("tourniquet", "on")), Node("clear", ("clear",)), Node("hands", ("gloved",)))
SENTENCE = Node("report", ("tourniquet", "on", "and", "clear", "gloved"), (), PARTS)


def ended(ends_s: tuple[float, ...], end_s: float) -> list[float]:
    """How many seconds before the decision, at 9 s, each part was said; then the sentence."""
    utterance = Utterance((Alternative(SENTENCE.words),), 3.0, end_s, 9.0)
    say = understood(Heard(SENTENCE, 0.9, ends_s), utterance, NOW)
    return [
        round((NOW - one.said_at) / timedelta(seconds=1), 3) for one in (*say.answers, say) if one.said_at
    ]


@pytest.mark.parametrize(
    ("ends_s", "end_s", "ago_s"),
    [
        ((4.0, 5.0, 5.5, 6.0, 8.5), 8.4, [4.0, 3.0, 0.6, 0.6]),
        ((), 8.0, [1.0, 1.0, 1.0, 1.0]),  # an ear that does not tell: all with the speech
        ((3.5, 3.6, 3.7, 4.0, 4.5, 5.0, 5.5, 6.0, 7.0, 8.0), 8.0, [5.0, 3.0, 1.0, 1.0]),  # spelled in two
        ((4.0, 5.0, 6.0, 9.0, 9.5), 8.0, [4.0, 1.0, 1.0, 1.0]),  # no word ends after the speech
        ((4.0,), 8.0, [1.0, 5.0, 1.0, 1.0]),  # far too few: somewhere in the sentence
    ],
)
def test_when_each_part_was_said(ends_s: tuple[float, ...], end_s: float, ago_s: list[float]) -> None:
    """A part of a report ends with its own last word; the sentence with the last sound of speech."""
    assert ended(ends_s, end_s) == ago_s


def test_a_typed_line_is_said_when_it_comes() -> None:
    """It has no sound whose length could be taken off."""
    say = understood(Heard(Node("next", ("next",)), 1.0), Utterance((Alternative(("next",)),)), NOW)
    assert say.said_at == NOW
