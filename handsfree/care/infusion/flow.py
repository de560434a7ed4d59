"""How volume, time, rate and drops hang together; exact, and in any direction."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import datetime, timedelta
from fractions import Fraction
from math import prod
from types import MappingProxyType

from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY, half_up


@dataclass(frozen=True, slots=True)
class Flow:
    """What is known of a gravity infusion; None where it is not known."""

    volume_ml: Fraction | None = None
    time_min: Fraction | None = None
    rate_ml_per_h: Fraction | None = None
    drop_rate_per_min: Fraction | None = None
    drop_factor_per_ml: Fraction | None = None

    def known(self) -> dict[str, Fraction]:
        """Names and values of what is known, in order."""
        pairs = ((field.name, getattr(self, field.name)) for field in fields(self))
        return {name: value for name, value in pairs if value is not None}


NOTHING = Flow()

UNITS = MappingProxyType(
    {
        "volume_ml": "mL",
        "time_min": "min",
        "rate_ml_per_h": "mL/h",
        "drop_rate_per_min": "gtt/min",
        "drop_factor_per_ml": "gtt/mL",
    }
)
"""The unit of each field of a Flow, as the trade writes it."""


@dataclass(frozen=True, slots=True)
class _Law:
    """Two products that are equal: `left` multiplied, and `right` multiplied `by` a number."""

    left: tuple[str, str]
    right: tuple[str, ...]
    by: int


_LAWS = (
    _Law(("rate_ml_per_h", "time_min"), ("volume_ml",), 60),
    _Law(("rate_ml_per_h", "drop_factor_per_ml"), ("drop_rate_per_min",), 60),
    _Law(("drop_rate_per_min", "time_min"), ("volume_ml", "drop_factor_per_ml"), 1),
)


def solve(known: Flow, half_steps: Flow = NOTHING) -> Flow | Refused:
    """All that follows from what is known; what was known stays as it is.

    half_steps: by how much each known value may be off as it was written (42 gtt/min: one half).
    Refused where a value is not above zero, values contradict each other beyond that, or nothing follows.
    """
    given = known.known()
    for name, value in given.items():
        if value <= 0:
            return Refused(f"{value} {UNITS[name]} is not more than zero.")
    for law in _LAWS:
        if _broken(law, given, half_steps.known()):
            values = [POLICY.write(given[name], UNITS[name]) for name in law.left + law.right]
            return Refused(f"{', '.join(values[:-1])} and {values[-1]} do not fit together.")
    flow = _completed(known)
    if flow.rate_ml_per_h is None or len(given) < 2:
        return Refused(
            "Too little is known: give two of volume, time and rate, or drop rate and drop factor."
        )
    return flow


def finish(start: datetime, time_min: Fraction) -> datetime:
    """When an infusion ends: start and time added exactly, then rounded half up to the minute."""
    into_minute_min = Fraction(start.second * 1_000_000 + start.microsecond, 60_000_000)
    whole = start.replace(second=0, microsecond=0)
    return whole + timedelta(minutes=half_up(into_minute_min + time_min))


def _broken(law: _Law, given: dict[str, Fraction], half_steps: dict[str, Fraction]) -> bool:
    if not given.keys() >= {*law.left, *law.right}:
        return False
    left_low, left_high = _bounds(law.left, given, half_steps)
    right_low, right_high = _bounds(law.right, given, half_steps)
    return left_high < law.by * right_low or law.by * right_high < left_low


def _bounds(
    names: tuple[str, ...], given: dict[str, Fraction], half_steps: dict[str, Fraction]
) -> tuple[Fraction, Fraction]:
    slack = {name: half_steps.get(name, Fraction(0)) for name in names}
    low = prod(max(Fraction(0), given[name] - slack[name]) for name in names)
    high = prod(given[name] + slack[name] for name in names)
    return Fraction(low), Fraction(high)


def _completed(known: Flow) -> Flow:
    rate = (
        known.rate_ml_per_h
        or _per_hour(known.volume_ml, known.time_min)
        or _per_hour(known.drop_rate_per_min, known.drop_factor_per_ml)
    )
    return Flow(
        volume_ml=known.volume_ml or _in_all(rate, known.time_min),
        time_min=known.time_min or _per_hour(known.volume_ml, rate),
        rate_ml_per_h=rate,
        drop_rate_per_min=known.drop_rate_per_min or _in_all(rate, known.drop_factor_per_ml),
        drop_factor_per_ml=known.drop_factor_per_ml or _per_hour(known.drop_rate_per_min, rate),
    )


def _per_hour(amount: Fraction | None, per: Fraction | None) -> Fraction | None:
    return None if amount is None or per is None else 60 * amount / per


def _in_all(per_hour: Fraction | None, times: Fraction | None) -> Fraction | None:
    return None if per_hour is None or times is None else per_hour * times / 60
