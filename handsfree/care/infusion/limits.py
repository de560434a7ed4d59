"""Bounds of what is possible and of what is usual, as data. Impossible is refused, unusual is asked twice."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from handsfree.care.infusion.flow import UNITS, Flow
from handsfree.care.infusion.rounding import POLICY

_LOCAL = "local policy"
_EMERGENCY = "the emergency department handbook on cannulas (South Australia)"


@dataclass(frozen=True, slots=True)
class Limit:
    """Bounds of one field of a Flow, both allowed themselves.

    hard: beyond is impossible, otherwise only unusual. source: where the bounds come from.
    """

    quantity: str
    low: Fraction
    high: Fraction
    hard: bool
    source: str


@dataclass(frozen=True, slots=True)
class Beyond:
    """A number outside a limit. hard: impossible, otherwise unusual. reason: one sentence."""

    quantity: str
    hard: bool
    reason: str


FREE_FLOW_ML_PER_MIN = MappingProxyType(
    {
        14: Fraction(2000, 7),
        16: Fraction(500, 3),
        18: Fraction(100),
        20: Fraction(200, 3),
        22: Fraction(500, 11),
    }
)
"""By gauge: a litre of saline in 3.5, 6, 10, 15 and 22 minutes of ideal gravity (emergency department
handbook, IV cannula page, South Australia). A ceiling; it does not tell what will flow."""

USUAL_DROP_FACTORS = frozenset(Fraction(drops) for drops in (10, 12, 15, 20, 21, 60))
"""10, 15, 20 and 60: Math for Nursing, flow-rate help sheet (college mathematics learning center, 2000).
12 and 21: met in short published questions and answers."""

LIMITS = (
    Limit("volume_ml", Fraction(1), Fraction(20_000), True, _LOCAL),
    Limit("volume_ml", Fraction(10), Fraction(3_000), False, _LOCAL),
    Limit("time_min", Fraction(1), Fraction(7 * 24 * 60), True, _LOCAL),
    Limit("time_min", Fraction(10), Fraction(24 * 60), False, _LOCAL),
    Limit("rate_ml_per_h", Fraction(1, 10), FREE_FLOW_ML_PER_MIN[14] * 60, True, _EMERGENCY),
    Limit("rate_ml_per_h", Fraction(10), Fraction(1_000), False, _LOCAL),
    Limit("drop_factor_per_ml", Fraction(1), Fraction(100), True, _LOCAL),
    Limit("drop_rate_per_min", Fraction(1), Fraction(200), False, "what an eye can count (from memory)"),
)
"""Hard before soft for each quantity."""


def beyond(flow: Flow) -> tuple[Beyond, ...]:
    """What of a flow is impossible or unusual, each quantity once, its worst."""
    found: dict[str, Beyond] = {}
    for limit in LIMITS:
        value = flow.known().get(limit.quantity)
        if value is not None and not limit.low <= value <= limit.high:
            found.setdefault(limit.quantity, _outside(limit, value))
    factor = flow.drop_factor_per_ml
    if factor is not None and factor not in USUAL_DROP_FACTORS:
        found.setdefault("drop_factor_per_ml", _odd_set(factor))
    return tuple(found.values())


def above_free_flow(rate_ml_per_h: Fraction, gauge: int) -> Beyond | None:
    """A rate that a cannula of this gauge cannot let through by gravity; None where it may, or is unknown."""
    ceiling_ml_per_min = FREE_FLOW_ML_PER_MIN.get(gauge)
    if ceiling_ml_per_min is None or rate_ml_per_h <= ceiling_ml_per_min * 60:
        return None
    ceiling = POLICY.write(ceiling_ml_per_min * 60, "mL/h")
    asked = POLICY.write(rate_ml_per_h, "mL/h")
    return Beyond(
        "rate_ml_per_h",
        False,
        f"{asked} is more than {gauge} gauge lets through by gravity, at best {ceiling}.",
    )


def _outside(limit: Limit, value: Fraction) -> Beyond:
    unit = UNITS[limit.quantity]
    side, bound = ("below", limit.low) if value < limit.low else ("above", limit.high)
    kind = "possible" if limit.hard else "usual"
    reason = (
        f"{POLICY.write(value, unit)} is {side} what is {kind}, {POLICY.write(bound, unit)} ({limit.source})."
    )
    return Beyond(limit.quantity, limit.hard, reason)


def _odd_set(factor_per_ml: Fraction) -> Beyond:
    written = POLICY.write(factor_per_ml, "gtt/mL")
    return Beyond(
        "drop_factor_per_ml", False, f"{written} is not a usual set: read the number on its pack again."
    )
