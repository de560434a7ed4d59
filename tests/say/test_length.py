"""How long a sentence lasts in a simulation."""

from __future__ import annotations

import pytest

from handsfree.say.length import spoken_length_s
from handsfree.say.voices.spoken import DEFAULT_RATE_WPM, DEFAULT_VOICE
from handsfree.say.voices.synthesis import synthesise

LENGTHS = [
    ("", 0.0),
    ("...", 0.0),
    ("Correct?", 0.97),
    ("Set forty two drops a minute, four two.", 3.09),
]

SENTENCES = [
    "Correct?",
    "Set forty two drops a minute, four two.",
    "One hundred twenty five millilitres an hour, one two five.",
    "The tourniquet has been on for two minutes.",
    "One drop every one point four seconds, eleven drops in fifteen seconds.",
    "Fifteen, one five drops a millilitre. Correct?",
]


@pytest.mark.parametrize(("text", "length_s"), LENGTHS)
def test_formula(text: str, length_s: float) -> None:
    """Length follows from letters and pauses alone; a change of the formula changes every replay."""
    assert length_s == spoken_length_s(text)


@pytest.mark.parametrize("text", SENTENCES)
def test_as_long_as_speech(text: str) -> None:
    """The formula is as good as a tenth of what the default voice takes."""
    spoken_s = synthesise(text, DEFAULT_VOICE, DEFAULT_RATE_WPM).length_s

    assert pytest.approx(spoken_s, rel=0.1) == spoken_length_s(text)
