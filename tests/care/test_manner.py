"""How the program speaks, by voice: in every kind of session, and kept as long as it lasts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from handsfree.care.manner import kept_manner
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.signals import Manner
from handsfree.testing.dialogue import Talk, talk
from handsfree.wiring import read_shipped, sounds
from tests.care.drill.drills import drilled, events
from tests.dialogues import ORDER, RUN, TO_RUN, shipped, told

WAYS = [
    (("louder",), Manner(loudness=1), "I speak louder now."),
    (("speak up", "i can't hear you", "louder"), Manner(loudness=2), "I cannot speak louder than this."),
    (("softer", "not so loud", "softer"), Manner(loudness=-2), "I do not speak softer than this."),
    (("speak louder", "speak softer"), Manner(), "I speak softer now."),
    (("faster speech",), Manner(pace=1), "I speak faster now."),
    (("speak slower", "slower speech"), Manner(pace=-2), "I speak slower now."),
    (("speak a bit slower",) * 3, Manner(pace=-2), "I do not speak slower than this."),
    (("other voice", "change the voice"), Manner(voice=2), "I speak in this voice now."),
]
"""What was said, how it speaks then, and what it says of that."""


def manner(talk: Talk) -> Manner:
    """As the corridor has it, which is what its record says."""
    assert kept_manner(events(talk)) == talk.corridor.mouth.manner
    return talk.corridor.mouth.manner


@pytest.mark.parametrize(("said", "speaks", "answer"), WAYS, ids=[" / ".join(one[0]) for one in WAYS])
def test_asked_for_it_speaks_so(said: tuple[str, ...], speaks: Manner, answer: str) -> None:
    """It is told back, at its end too."""
    talk = told(*said)
    assert (speaks, answer) == (manner(talk), talk.said[-1])


def practised(*script: str) -> Talk:
    """Run practice on the shipped checklist."""
    words = Lexicon(practice_vocabulary(shipped()), read_shipped, knows_all, sounds())
    return talk(script, shipped(), words, kind="practice")


@pytest.mark.parametrize("run", [told, drilled, practised])
def test_in_every_kind_of_session(run: Callable[..., Talk]) -> None:
    """The same words do the same."""
    said = ("louder", "other voice", "speak slower", "speak slower", "speak faster", "softer", "softer")
    assert Manner(-1, -1, 1) == manner(run(*said))


def test_not_in_a_run_of_a_drill() -> None:
    """There they may be a trainee's own talk, and a voice would be heard by all."""
    assert Manner() == manner(drilled("go", "louder", "speak slower"))


def test_beat_and_speech_are_not_taken_for_one_another() -> None:
    """While it ticks, "faster" alone is the beat's, and changes no speech; and the other way round."""
    ticking = told("start ticking", "faster", "a bit slower", after=(*TO_RUN, *RUN[:2]))
    spoken = told("start ticking", "speak faster", "slower speech", "speak slower", after=(*TO_RUN, *RUN[:2]))
    assert Manner() == manner(ticking)
    assert (ticking.session.beat, Manner(pace=-1)) == (spoken.session.beat, manner(spoken))


def test_nothing_else_changes() -> None:
    """A read-back waits on, is said again as it was, and counts; no undo takes the manner back."""
    talk = told("louder", "say again", "correct", "scrub that", after=ORDER[:2])
    assert (
        "I speak louder now.",
        "Sodium chloride zero point nine percent. Correct?",
        "Taken. What volume?",
        "Taken back. Which fluid is ordered?",
    ) == talk.said
    assert Manner(loudness=1) == manner(talk)


def test_a_new_line_hears_the_same_voice() -> None:
    """It belongs to the session, not to the line at hand."""
    assert Manner(voice=1) == manner(told("this is bed one", "other voice", "new patient bed two"))
