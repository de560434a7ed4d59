"""Volume, time, rate and drops: published answers, published mistakes, contradictions."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care.infusion.flow import UNITS, Flow, flow_of, solve
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY

ARMY = "Pharmacology Math for the Practical Nurse, MD0904 ed. 100 (US Army Medical Department)"

PUBLISHED = (
    (f"{ARMY}, page 123", Flow(Fraction(1000), Fraction(480), drop_factor_per_ml=Fraction(20)), "42"),
    (f"{ARMY}, page 123", Flow(Fraction(1000), Fraction(600), drop_factor_per_ml=Fraction(15)), "25"),
    (f"{ARMY}, page 125", Flow(Fraction(2000), Fraction(720), drop_factor_per_ml=Fraction(15)), "42"),
    (f"{ARMY}, page 125", Flow(rate_ml_per_h=Fraction(125), drop_factor_per_ml=Fraction(20)), "42"),
    (f"{ARMY}, page 125", Flow(Fraction(2000), Fraction(960), drop_factor_per_ml=Fraction(20)), "42"),
    (f"{ARMY}, page 125", Flow(Fraction(1500), Fraction(1440), drop_factor_per_ml=Fraction(20)), "21"),
    (f"{ARMY}, page 125", Flow(Fraction(500), Fraction(240), drop_factor_per_ml=Fraction(10)), "21"),
    (
        "Math for Nursing, flow-rate help sheet (college mathematics learning center, 2000)",
        Flow(Fraction(1000), Fraction(540), drop_factor_per_ml=Fraction(15)),
        "28",
    ),
    (
        "short published question: 31.2 was printed, from a rate cut to 2.08 mL/min; 31.25 is exact",
        Flow(Fraction(1500), Fraction(720), drop_factor_per_ml=Fraction(15)),
        "31",
    ),
    (
        "Microdrops practice (how-to article): with a 60 set, gtt/min and mL/h are the same number",
        Flow(rate_ml_per_h=Fraction(83), drop_factor_per_ml=Fraction(60)),
        "83",
    ),
)

TIMES = (
    (
        'Nursing Skills, section 5.16 "IV Completion Time" (Open RN): 6 h 40 min',
        Flow(volume_ml=Fraction(500), rate_ml_per_h=Fraction(75)),
        Fraction(400),
    ),
    (
        "Student cards (time tape, infusion time): 4 h 24 min was printed, cut to 4.4 h on the way",
        Flow(volume_ml=Fraction(1000), rate_ml_per_h=Fraction(225)),
        Fraction(800, 3),
    ),
    (
        "Need-to-know math formulas: 13 h 18 min was printed, cut to 13.3 h on the way",
        Flow(volume_ml=Fraction(1000), rate_ml_per_h=Fraction(75)),
        Fraction(800),
    ),
    (
        "NCLEX tip page, hours to infuse: 597 min was printed, 0.667 cut to 0.67 on the way",
        Flow(Fraction(400), drop_rate_per_min=Fraction(40), drop_factor_per_ml=Fraction(60)),
        Fraction(600),
    ),
)


@pytest.mark.parametrize(("source", "known", "drops"), PUBLISHED)
def test_drop_rates_are_the_published_ones(source: str, known: Flow, drops: str) -> None:
    """The drop rate, rounded once at the end, is the published answer."""
    flow = solve(known)

    assert isinstance(flow, Flow), source
    assert flow.drop_rate_per_min is not None
    assert f"{drops} gtt/min" == POLICY.write(flow.drop_rate_per_min, "gtt/min"), source


@pytest.mark.parametrize(("source", "known", "time_min"), TIMES)
def test_times_are_exact_where_the_printed_ones_were_cut(
    source: str, known: Flow, time_min: Fraction
) -> None:
    """The time follows exactly from the inputs, whatever was rounded on the way in print."""
    flow = solve(known)

    assert isinstance(flow, Flow), source
    assert time_min == flow.time_min, source


def test_drops_of_a_drug_infusion_give_its_rate() -> None:
    """Ten drops a minute of a 60 set are 10 mL/h (Critical Care Calculations, nursing dosage course page)."""
    flow = solve(Flow(drop_rate_per_min=Fraction(10), drop_factor_per_ml=Fraction(60)))

    assert Flow(None, None, Fraction(10), Fraction(10), Fraction(60)) == flow


amounts = st.fractions(min_value=Fraction(1, 100), max_value=10_000, max_denominator=1000)


@settings(deadline=None)
@given(volume_ml=amounts, time_min=amounts, drop_factor_per_ml=amounts)
def test_any_solvable_part_gives_the_whole(
    volume_ml: Fraction, time_min: Fraction, drop_factor_per_ml: Fraction
) -> None:
    """From every part of a flow follows the same whole, or part of it, or nothing; never something else."""
    whole = solve(Flow(volume_ml, time_min, drop_factor_per_ml=drop_factor_per_ml))
    assert isinstance(whole, Flow)
    for size in range(2, 6):
        for names in combinations(UNITS, size):
            found = solve(flow_of({name: whole.known()[name] for name in names}))
            if isinstance(found, Flow):
                assert found.known().items() <= whole.known().items()
                assert found.rate_ml_per_h is not None
            if size >= 4:
                assert whole == found


TOO_LITTLE = (
    *(flow_of({name: Fraction(1)}) for name in UNITS),
    Flow(),
    Flow(volume_ml=Fraction(1000), drop_factor_per_ml=Fraction(15)),
    Flow(volume_ml=Fraction(1000), drop_rate_per_min=Fraction(31)),
    Flow(time_min=Fraction(480), drop_factor_per_ml=Fraction(15)),
    Flow(time_min=Fraction(480), drop_rate_per_min=Fraction(31)),
)


@pytest.mark.parametrize("known", TOO_LITTLE)
def test_too_little_is_refused(known: Flow) -> None:
    """Where nothing follows, the reason tells what is missing."""
    assert Refused(
        "Too little is known: give two of volume, time and rate, or drop rate and drop factor."
    ) == solve(known)


HALF = Fraction(1, 2)
WHOLE = Flow(HALF, HALF, HALF, HALF, Fraction(0))
"""What was written in whole numbers; the drop factor is as printed on the pack."""

AGREEING = (
    (
        "42 is 41.67 in whole drops",
        Flow(Fraction(1000), Fraction(480), None, Fraction(42), Fraction(20)),
        True,
    ),
    ("43 is not", Flow(Fraction(1000), Fraction(480), None, Fraction(43), Fraction(20)), False),
    ("167 is 166.67", Flow(Fraction(1000), Fraction(360), Fraction(167)), True),
    ("168 is not", Flow(Fraction(1000), Fraction(360), Fraction(168)), False),
    ("all five", Flow(Fraction(1000), Fraction(480), Fraction(125), Fraction(31), Fraction(15)), True),
    ("a 20 set for a 15", Flow(None, None, Fraction(125), Fraction(31), Fraction(20)), False),
)


@pytest.mark.parametrize(("why", "known", "agrees"), AGREEING)
def test_contradictions_count_beyond_the_precision(why: str, known: Flow, agrees: bool) -> None:
    """Values that say the same twice conflict only beyond the precision they were written with."""
    assert agrees == isinstance(solve(known, WHOLE), Flow), why


def test_a_contradiction_says_all_sides() -> None:
    """The reason names the values that cannot all be so."""
    flow = Flow(Fraction(1000), Fraction(480), Fraction(100))

    told = "1000 mL, 480 min and 100 mL/h do not fit together. Check each against the order."
    assert Refused(told) == solve(flow)


@pytest.mark.parametrize("value", [Fraction(0), Fraction(-5)])
def test_nothing_runs_at_zero_or_less(value: Fraction) -> None:
    """Zero and less are refused before anything is divided by them."""
    assert Refused(f"{value} min is not more than zero.") == solve(Flow(Fraction(1000), value))


@settings(deadline=None)
@given(volume_ml=amounts, time_min=amounts, drop_factor_per_ml=amounts, times=st.integers(2, 9))
def test_flows_scale(
    volume_ml: Fraction, time_min: Fraction, drop_factor_per_ml: Fraction, times: int
) -> None:
    """So many times the volume in the same time is so many times the rate and the drops; in so many times the
    time it is the same rate."""
    one = solve(Flow(volume_ml, time_min, drop_factor_per_ml=drop_factor_per_ml))
    more = solve(Flow(volume_ml * times, time_min, drop_factor_per_ml=drop_factor_per_ml))
    same = solve(Flow(volume_ml * times, time_min * times, drop_factor_per_ml=drop_factor_per_ml))
    assert isinstance(one, Flow) and isinstance(more, Flow) and isinstance(same, Flow)
    assert one.rate_ml_per_h and one.drop_rate_per_min

    assert (one.rate_ml_per_h * times, one.drop_rate_per_min * times) == (
        more.rate_ml_per_h,
        more.drop_rate_per_min,
    )
    assert one.rate_ml_per_h == same.rate_ml_per_h


@settings(deadline=None)
@given(volume_ml=amounts, time_min=amounts, longer_min=amounts)
def test_a_longer_time_is_a_slower_rate(
    volume_ml: Fraction, time_min: Fraction, longer_min: Fraction
) -> None:
    """The rate falls as the time grows."""
    fast, slow = solve(Flow(volume_ml, time_min)), solve(Flow(volume_ml, time_min + longer_min))
    assert isinstance(fast, Flow) and isinstance(slow, Flow)
    assert fast.rate_ml_per_h and slow.rate_ml_per_h

    assert slow.rate_ml_per_h < fast.rate_ml_per_h


def test_the_short_cut_of_the_trade() -> None:
    """mL/h by 6, 4, 3 and 1 are the drops of 10, 15, 20 and 60 sets (Need-to-know math formulas)."""
    found = [
        solve(Flow(rate_ml_per_h=Fraction(120), drop_factor_per_ml=Fraction(factor)))
        for factor in (10, 15, 20, 60)
    ]

    assert [120 / 6, 120 / 4, 120 / 3, 120] == [isinstance(f, Flow) and f.drop_rate_per_min for f in found]
