"""The drop beat, measured in its own sound."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.say.voices.ticker import TICK_S, Ticker

RATE = 22_050


def onsets_s(sound: bytes, sample_rate: int = RATE) -> list[float]:
    """When each tick begins: the first sample that is not silent after a silence as long as a tick."""
    loud = np.flatnonzero(np.frombuffer(sound, "<i2"))
    gaps = np.diff(loud, prepend=-sample_rate)
    return list(loud[gaps > TICK_S * sample_rate / 2] / sample_rate)


@pytest.mark.parametrize(
    ("drops_per_min", "sample_rate"),
    [(Fraction(42), 22_050), (Fraction(125, 4), 48_000), (Fraction(7), 22_050), (Fraction(200), 44_100)],
)
def test_no_beat_is_off_in_an_hour(drops_per_min: Fraction, sample_rate: int) -> None:
    """Every tick of an hour lies within a millisecond of its own time: nothing adds up."""
    ticker = Ticker(sample_rate)
    ticker.beat(drops_per_min)
    found = onsets_s(b"".join(ticker.render(sample_rate) for _ in range(3_600)), sample_rate)
    expected = [float(n * 60 / drops_per_min) for n in range(int(60 * drops_per_min))]

    assert len(expected) == len(found)
    assert max(abs(at - due) for at, due in zip(found, expected, strict=True)) < 0.001


@given(st.lists(st.integers(1, 5_000), min_size=1, max_size=40), st.fractions(1, 400))
def test_pieces_do_not_matter(pieces: list[int], drops_per_min: Fraction) -> None:
    """However the device asks for it, the sound is the same."""
    whole, by_piece = Ticker(RATE), Ticker(RATE)
    whole.beat(drops_per_min)
    by_piece.beat(drops_per_min)

    assert whole.render(sum(pieces)) == b"".join(by_piece.render(samples) for samples in pieces)


CHANGES = [
    (60, 120, [0.0, 1.0, 2.0, 3.0, 3.5, 4.0, 4.5, 5.0]),
    (60, 30, [0.0, 1.0, 2.0, 3.0, 5.0]),
    (12, 120, [0.0, 3.3, 3.8, 4.3, 4.8]),
    (60, None, [0.0, 1.0, 2.0, 3.0]),
]


@pytest.mark.parametrize(("first", "then", "expected"), CHANGES)
def test_changes_without_a_stumble(first: int, then: int | None, expected: list[float]) -> None:
    """After a change at 3.3 s the next tick follows the last one by the new interval, at the soonest now."""
    ticker = Ticker(RATE)
    ticker.beat(Fraction(first))
    sound = ticker.render(round(3.3 * RATE))
    ticker.beat(None if then is None else Fraction(then))
    found = onsets_s(sound + ticker.render(round(1.9 * RATE)))

    assert expected == pytest.approx(found, abs=0.001)


def test_begins_with_a_tick_and_again_after_a_stop() -> None:
    """A beat that was stopped begins anew, at once."""
    ticker = Ticker(RATE)
    ticker.beat(Fraction(60))
    sound = ticker.render(RATE // 2)
    ticker.beat(None)
    sound += ticker.render(RATE)
    ticker.beat(Fraction(60))

    assert [0.0, 1.5, 2.5] == pytest.approx(onsets_s(sound + ticker.render(RATE + RATE // 2)), abs=0.001)


@pytest.mark.parametrize("drops_per_min", [Fraction(0), Fraction(-3)])
def test_no_rate_is_refused(drops_per_min: Fraction) -> None:
    """No drops, no beat."""
    with pytest.raises(ValueError, match="above zero"):
        Ticker(RATE).beat(drops_per_min)
