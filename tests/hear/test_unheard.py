"""Sound that no word of a reading explains, in seconds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.hear.edges import STEP_S, Levels
from handsfree.hear.unheard import BELOW_DB, measured
from handsfree.signals import Alternative
from handsfree.testing.ear_contract import utterances
from handsfree.testing.sentences import ListedSentences
from tests.ears import vosk
from tests.hear.sound import frames, silence, speech

SOUND_S = 4.0

OPEN, VALVE = (0.5, 1.0), (1.0, 1.6)


def loud(*spans: tuple[float, float, float]) -> Levels:
    """Levels in dB: a room of 10, and from one second to another one of so many."""
    levels = np.full(round(SOUND_S / STEP_S), 10.0)
    for begin_s, end_s, level_db in spans:
        levels[round(begin_s / STEP_S) : round(end_s / STEP_S)] = level_db
    return levels


def reading(*times: tuple[float, float]) -> Alternative:
    """A word for each time."""
    begins_s, ends_s = zip(*times, strict=True)
    return Alternative(("word",) * len(times), begins_s=begins_s, ends_s=ends_s)


@pytest.mark.parametrize(
    ("sounds", "unheard_s"),
    [
        ([(*OPEN, 60), (*VALVE, 55)], 0.0),
        ([(*OPEN, 60), (*VALVE, 55), (2.0, 2.8, 60)], 0.8),
        ([(*OPEN, 60), (*VALVE, 55), (2.0, 2.8, 60 - BELOW_DB - 3)], 0.0),
        ([(*OPEN, 60), (*VALVE, 55), (0.0, 0.4, 60), (2.0, 2.8, 60)], 1.2),
        ([(*OPEN, 60), (*VALVE, 55), (3.2, 3.9, 60)], 0.0),
    ],
    ids=[
        "no more than the words",
        "speech behind them",
        "a quiet voice",
        "on both sides",
        "after the speech",
    ],
)
def test_seconds(sounds: list[tuple[float, float, float]], unheard_s: float) -> None:
    """As loud as the words, within the speech, and outside all of them."""
    (one,) = measured((reading(OPEN, VALVE),), loud(*sounds), 0.0, 3.0)
    assert one.unheard_s == pytest.approx(unheard_s, abs=0.1)


def test_each_reading_has_its_own() -> None:
    """What one reading leaves out another one explains; a reading that tells no times stays as it was."""
    untold = Alternative(("next",))
    short, whole, same = measured(
        (reading(OPEN), reading(OPEN, VALVE), untold), loud((*OPEN, 60), (*VALVE, 60)), 0.5, 1.6
    )
    assert (short.unheard_s > 0.4, whole.unheard_s, same) == (True, 0.0, untold)


@given(st.lists(st.floats(-1.0, 5.0), min_size=2, max_size=12), st.floats(0.0, 4.0), st.floats(0.0, 4.0))
def test_any_times(at_s: list[float], first_s: float, last_s: float) -> None:
    """Whatever times a recogniser tells, it is at least none and at most the speech."""
    times = [*zip(sorted(at_s), sorted(at_s)[1:], strict=False)]
    (one,) = measured((reading(*times),), loud((*OPEN, 60)), first_s, last_s)
    assert 0.0 <= one.unheard_s <= max(0.0, last_s - first_s) + 2 * STEP_S


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
def test_vosk_covers_what_it_heard() -> None:
    """Its words lie one behind the other, from the first sound to the last, and leave nothing loud out."""
    ear = vosk()
    ear.listen(ListedSentences("open the valve"))
    (said,) = utterances(ear, frames(silence(0.5), speech("open the valve"), silence(2)))
    one = said.alternatives[0]
    assert one.begins_s == pytest.approx((said.start_s, *one.ends_s[:-1]), abs=0.05)
    assert one.ends_s[-1] == pytest.approx(said.end_s, abs=0.15)
    assert one.unheard_s < 0.05
