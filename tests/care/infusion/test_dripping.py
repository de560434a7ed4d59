"""A bag that drips, drop by drop: nothing but counting."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.counting import Count, drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.flow import Flow, solve


def dripping(volume_ml: int, drop_factor: int, beat_s: Fraction) -> tuple[int, Fraction]:
    """Let a bag run empty: how many drops fell, and when the last one did."""
    left_ml, now_s, drops = Fraction(volume_ml), Fraction(0), 0
    while left_ml > 0:
        now_s += beat_s
        left_ml -= Fraction(1, drop_factor)
        drops += 1
    return drops, now_s


bags = st.integers(1, 200)
sets = st.sampled_from([10, 12, 15, 20, 21, 60])
minutes = st.integers(1, 600)


@settings(max_examples=60, deadline=None)
@given(volume_ml=bags, time_min=minutes, drop_factor=sets)
def test_a_bag_is_empty_when_it_should_be(volume_ml: int, time_min: int, drop_factor: int) -> None:
    """Dripping at the beat that is told, the last drop falls at the end of the time that was asked for."""
    flow = solve(Flow(Fraction(volume_ml), Fraction(time_min), drop_factor_per_ml=Fraction(drop_factor)))
    assert isinstance(flow, Flow) and flow.drop_rate_per_min

    fallen, end_s = dripping(volume_ml, drop_factor, seconds_per_drop(flow.drop_rate_per_min))

    assert (volume_ml * drop_factor, Fraction(60 * time_min)) == (fallen, end_s)


@settings(deadline=None)
@given(
    beat_ms=st.integers(200, 6000),
    drop_factor=sets,
    seconds=st.sampled_from([15, 30, 60]),
    offset_ms=st.integers(0, 6000),
)
def test_a_count_is_good_to_one_drop(beat_ms: int, drop_factor: int, seconds: int, offset_ms: int) -> None:
    """Whoever begins to count between two drops sees the fewest or the most that are told, and the rate of
    that count is off by less than one drop's worth."""
    first_ms = beat_ms - offset_ms % beat_ms
    seen = len(range(first_ms, seconds * 1000 + 1, beat_ms))
    drops_per_min = Fraction(60_000, beat_ms)

    fewest, most = whole_drops(drops_in(Fraction(seconds), drops_per_min))
    assert fewest <= seen <= most
    if seen:
        count = Count(seen, Fraction(seconds))
        true, counted = (
            solve(Flow(drop_rate_per_min=rate, drop_factor_per_ml=Fraction(drop_factor)))
            for rate in (drops_per_min, count.drop_rate_per_min)
        )
        assert isinstance(true, Flow) and isinstance(counted, Flow)
        assert true.rate_ml_per_h and counted.rate_ml_per_h
        off = abs(true.rate_ml_per_h - counted.rate_ml_per_h)
        assert off < count.one_drop_ml_per_h(Fraction(drop_factor))
