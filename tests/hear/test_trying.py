"""A microphone that was tried with one sentence: what is wrong with it."""

from __future__ import annotations

import pytest

from handsfree.hear.trying import judged, try_sentence
from handsfree.signals import Taken
from handsfree.testing.ears import FakeEar, written
from handsfree.testing.sentences import ListedSentences
from handsfree.trial import Flaw

ROOM, SPEECH = -65.0, -25.0


def frames(*parts: tuple[int, float, float]) -> list[Taken]:
    """So many frames of a level, each with so many of its samples clipped."""
    return [Taken(level_db, clipped) for count, level_db, clipped in parts for _ in range(count)]


@pytest.mark.parametrize(
    ("taken", "understood", "flaw"),
    [
        pytest.param(frames((30, ROOM, 0), (50, SPEECH, 0)), "yes", None, id="all is well"),
        pytest.param(frames((8, ROOM, 0), (50, SPEECH, 0)), "yes", None, id="silent but for the end"),
        pytest.param(frames((250, -120.0, 0)), "", Flaw.DEAD, id="dead"),
        pytest.param([], "", Flaw.DEAD, id="nothing at all"),
        pytest.param(frames((250, ROOM, 0)), "", Flaw.SILENT, id="nobody spoke"),
        pytest.param(frames((250, -3.0, 1)), "", Flaw.SILENT, id="one long howl"),
        pytest.param(frames((30, -80.0, 0), (50, -60.0, 0)), "yes", Flaw.FAINT, id="weak, though understood"),
        pytest.param(frames((30, ROOM, 0), (43, -6, 0), (8, -1, 0.3)), "yes", Flaw.CLIPPED, id="clipped"),
        pytest.param(frames((30, ROOM, 0), (48, -6, 0), (3, -1, 0.3)), "yes", None, id="three loud moments"),
        pytest.param(frames((30, -38.0, 0), (50, SPEECH, 0)), "yes", Flaw.NOISY, id="13 dB over the room"),
        pytest.param(frames((30, ROOM, 0), (50, SPEECH, 0)), "", Flaw.UNCLEAR, id="other words"),
        pytest.param(frames((30, ROOM, 0), (50, SPEECH, 0)), "no", Flaw.UNCLEAR, id="taken for others"),
    ],
)
def test_flaw(taken: list[Taken], understood: str, flaw: Flaw | None) -> None:
    """The first that holds. Levels as in tests/hear/test_watch.py, 15 dB from docs/accuracy.md."""
    assert flaw is judged(taken, understood, "yes").flaw


def test_listens_until_a_sentence_is_understood() -> None:
    """Other words do not end it, and nothing is taken behind the sentence."""
    sound, levels = written("", "good morning", "", "where am i", "", "and more", ""), list[float]()
    trial = try_sentence(sound, FakeEar(), ListedSentences("where am i", "next"), "where am i", levels.append)

    assert ("where am i", 5) == (trial.understood, len(levels))


def test_somebody_who_never_speaks_is_not_waited_for_for_ever() -> None:
    """Eight seconds are enough for any sentence."""
    levels = list[float]()
    try_sentence(written(*[""] * 500), FakeEar(), ListedSentences("next"), "next", levels.append)

    assert 250 == len(levels)
