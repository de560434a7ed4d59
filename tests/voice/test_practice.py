"""Practice on recordings in three voices: the marks of whole runs, and when each step was said."""

from __future__ import annotations

from itertools import product

import pytest

from handsfree.care.practice.session import Practice
from tests.care.practice.rub_runs import RUNS, hand_rub
from tests.care.practice.runs import PERFECT, STANDS, Run
from tests.care.practice.test_marking import marks
from tests.ears import vosk
from tests.voice.practice import Spoken, heard, late_s, spoken

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
    assert set() == off(RUNS[name], said, session)


def off(run: Run, said: Spoken, session: Practice) -> set[str]:
    """Steps whose time is not near when their words ended."""
    return {step for step, late in late_s(run, said, session) if abs(late) > NEAR_S}


FROM_ORDER_TO_LINE = {
    "piper_joe": (Run(PERFECT), {"needle"}),
    "festival_slt": (Run(PERFECT), set[str]()),
    "flite_slt": (
        Run(PERFECT, {"missed": "spiked", "out of order": "chamber"}, {("chamber_order", "chamber"): STANDS}),
        set[str](),
    ),
}
"""By voice: the marks of a perfect run through the shipped checklist, and steps off their time.

All of its steps are open at once, and not all that is said is heard: flite_slt's "then i spike the bag"
sounds like "bin i spike the bag"; of piper_joe's "going in at twenty degrees" the last words are not, so the
step is 1.2 s early.
"""


@pytest.mark.vosk
@pytest.mark.timeout(600)  # five minutes of sound
@pytest.mark.parametrize("voice", VOICES)
def test_from_order_to_running_line(voice: str) -> None:
    """Fifty-five steps in forty-two sentences, among other words."""
    run, early = FROM_ORDER_TO_LINE[voice]
    said = spoken(run, voice)
    session = heard(said.sound, vosk())

    assert run == marks(session.marking(session.started), run)
    assert early == off(run, said, session)
