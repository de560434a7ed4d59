"""Drops against time."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care.infusion.counting import Count, drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.flow import Flow, solve

TO_COUNT = (
    (42, 15, (10, 11)),
    (42, 30, (21, 21)),
    (42, 60, (42, 42)),
    (Fraction(125, 4), 15, (7, 8)),
    (2, 15, (0, 1)),
)


@pytest.mark.parametrize(("drop_rate_per_min", "seconds", "whole"), TO_COUNT)
def test_a_window_shows_whole_drops(
    drop_rate_per_min: Fraction, seconds: int, whole: tuple[int, int]
) -> None:
    """A quarter of the drops a minute fall in 15 s (student cards: drops in 15 s), half in 30 s (nurses'
    forum threads on gravity counting); where that is not whole, either neighbour is a right count."""
    assert whole == whole_drops(drops_in(Fraction(seconds), Fraction(drop_rate_per_min)))


ONE_DROP = (
    (10, (24, 12, 6)),
    (15, (16, 8, 4)),
    (20, (12, 6, 3)),
    (60, (4, 2, 1)),
)


@pytest.mark.parametrize(("drop_factor_per_ml", "ml_per_h_in_15_30_60_s"), ONE_DROP)
def test_one_drop_weighs_more_in_a_short_count(
    drop_factor_per_ml: int, ml_per_h_in_15_30_60_s: tuple[int, int, int]
) -> None:
    """One drop missed or doubled changes the rate by 3600 / seconds / drop factor (derived)."""
    counts = (Count(8, Fraction(seconds)) for seconds in (15, 30, 60))

    assert list(ml_per_h_in_15_30_60_s) == [
        count.one_drop_ml_per_h(Fraction(drop_factor_per_ml)) for count in counts
    ]


def test_the_keep_open_count_of_the_trade() -> None:
    """Two drops in 15 s of a 10 set are 48 mL/h (nurses' forum threads on KVO: about 50)."""
    flow = solve(
        Flow(drop_rate_per_min=Count(2, Fraction(15)).drop_rate_per_min, drop_factor_per_ml=Fraction(10))
    )

    assert isinstance(flow, Flow)
    assert Fraction(48) == flow.rate_ml_per_h


def test_the_beat_is_the_minute_by_its_drops() -> None:
    """125/4 drops a minute are one in 1.92 s."""
    assert Fraction(48, 25) == seconds_per_drop(Fraction(125, 4))


BY_EYE = ((3, 10, 120), (5, 10, 72), (3, 15, 80), (5, 15, 48), (3, 60, 20), (5, 60, 12))


@pytest.mark.parametrize(("beat_s", "drop_factor", "rate_ml_per_h"), BY_EYE)
def test_a_beat_is_another_rate_on_another_set(beat_s: int, drop_factor: int, rate_ml_per_h: int) -> None:
    """One drop in three to five seconds, the keep-open of the eye (common practice, no source), is anything
    from 12 to 120 mL/h: the reason why a number is asked for (derived)."""
    flow = solve(Flow(drop_rate_per_min=Fraction(60, beat_s), drop_factor_per_ml=Fraction(drop_factor)))

    assert isinstance(flow, Flow)
    assert rate_ml_per_h == flow.rate_ml_per_h
