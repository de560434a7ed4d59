"""What is possible, and what is usual."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care.infusion.flow import UNITS, Flow
from handsfree.care.infusion.limits import LIMITS, above_free_flow, beyond

FOUND = (
    ("volume_ml", "1000", ()),
    ("volume_ml", "5000", (("usual", False),)),
    ("volume_ml", "100000", (("possible", True),)),
    ("volume_ml", "1/2", (("possible", True),)),
    ("time_min", "480", ()),
    ("time_min", "2000", (("usual", False),)),
    ("time_min", "1/2", (("possible", True),)),
    ("rate_ml_per_h", "125", ()),
    ("rate_ml_per_h", "3/10", (("usual", False),)),
    ("rate_ml_per_h", "18000", (("possible", True),)),
    ("drop_factor_per_ml", "21", ()),
    ("drop_factor_per_ml", "13", (("not a usual set", False),)),
    ("drop_factor_per_ml", "500", (("possible", True),)),
    ("drop_rate_per_min", "200", ()),
    ("drop_rate_per_min", "201", (("usual", False),)),
)


@pytest.mark.parametrize(("name", "value", "found"), FOUND)
def test_each_number_is_held_against_its_limits(
    name: str, value: str, found: tuple[tuple[str, bool], ...]
) -> None:
    """Impossible and unusual numbers are told apart, each once, with the limit in words."""
    faults = beyond(Flow(**{name: Fraction(value)}))

    assert [hard for _, hard in found] == [fault.hard for fault in faults]
    assert all(words in fault.reason for (words, _), fault in zip(found, faults, strict=True))


def test_limits_are_about_fields_of_a_flow() -> None:
    """Every limit names a field, a source and a range."""
    assert all(limit.quantity in UNITS and limit.source and limit.low < limit.high for limit in LIMITS)


CEILINGS = (
    (18, 6000, False),
    (18, 6001, True),
    (20, 4000, False),
    (22, 2728, True),
    (14, 17_000, False),
    (24, 9000, False),
)


@pytest.mark.parametrize(("gauge", "rate_ml_per_h", "is_above"), CEILINGS)
def test_a_cannula_lets_so_much_through(gauge: int, rate_ml_per_h: int, is_above: bool) -> None:
    """Ideal gravity, a litre of saline in 10 min by 18, 15 by 20, 22 by 22 gauge (emergency department
    handbook, IV cannula page, South Australia), is the ceiling; of other gauges nothing is said."""
    assert is_above == (above_free_flow(Fraction(rate_ml_per_h), gauge) is not None)
