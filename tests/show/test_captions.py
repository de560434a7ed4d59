"""What both sides say, with its times."""

from __future__ import annotations

from handsfree.say.length import spoken_length_s
from handsfree.show.captions import PROGRAM, USER, Captions
from handsfree.webvtt import Cue


def test_one_sentence_after_the_other() -> None:
    """The program's sentences follow one another; the user's stand where they began."""
    captions = Captions(lambda: 10.0)
    first, second = (round(1000 * captions.say(text)) for text in ("Which fluid?", "What volume?"))
    captions.spoke(10.5, 11.0, "saline")

    assert first == round(1000 * spoken_length_s("Which fluid?"))
    assert captions.cues() == (
        Cue(10_000, 10_000 + first, "Which fluid?", PROGRAM),
        Cue(10_500, 11_000, "saline", USER),
        Cue(10_000 + first, 10_000 + first + second, "What volume?", PROGRAM),
    )


def test_hushed() -> None:
    """A sentence is broken off where it is, one that was to follow is not said, the next one begins now."""
    times = iter((0.0, 0.0, 0.5, 0.5))
    captions = Captions(lambda: next(times))
    captions.say("Which fluid is ordered?")
    captions.say("What volume?")
    captions.hush()
    captions.say("Held.")

    first, second = captions.cues()
    assert (first.start_ms, first.end_ms, first.text) == (0, 500, "Which fluid is ordered?")
    assert (second.start_ms, second.text) == (500, "Held.")
