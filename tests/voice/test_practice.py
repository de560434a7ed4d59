"""Practice on recordings in three voices: the marks of twelve runs, and when each step was said."""

from __future__ import annotations

from itertools import product

import pytest

from tests.care.practice.rub_runs import RUNS, hand_rub
from tests.care.practice.test_marking import marks
from tests.ears import vosk
from tests.voice.practice import heard, late_s, spoken

VOICES = ("piper_joe", "flite_slt", "festival_slt")

NEAR_S = 0.5
"""How far the time of a step may be from when its words ended."""


@pytest.mark.vosk
@pytest.mark.parametrize(("voice", "name"), list(product(VOICES, RUNS)))
def test_marks_are_those_expected(voice: str, name: str) -> None:
    """The same marks as on text, and each step at its time."""
    said = spoken(RUNS[name], voice)
    session = heard(said.sound, vosk(), hand_rub)

    assert RUNS[name] == marks(session.marking(session.started), RUNS[name])
    assert {} == {step: late for step, late in late_s(RUNS[name], said, session) if abs(late) > NEAR_S}
