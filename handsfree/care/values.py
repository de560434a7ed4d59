"""Kinds of value that close a step: how they are checked. Values are plain text as the record keeps them."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import refusals
from handsfree.care.infusion.drugs import NO_DRIP
from handsfree.care.infusion.flow import Flow


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of value. confirm: always read back. field: its place in a Flow. bare: rule of a bare answer."""

    confirm: bool = False
    field: str = ""
    bare: str = ""
    complaint: Callable[[str], str] = lambda _: ""


def _fluid(value: str) -> str:
    return NO_DRIP.get(value, "")


def _gauge(value: str) -> str:
    one, *other = value.split("/")
    return refusals.two_gauges(one, other[0]) if other else ""


def _count(value: str) -> str:
    drops, over_s = value.split("/")
    return "" if int(drops) and int(over_s) else refusals.NO_DROPS


KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "identity": Kind(),
        "fluid": Kind(confirm=True, complaint=_fluid),
        "bag_fluid": Kind(),
        "volume": Kind(confirm=True, field="volume_ml", bare="just_volume"),
        "infusion_time": Kind(confirm=True, field="time_min", bare="just_infusion_time"),
        "rate": Kind(confirm=True, field="rate_ml_per_h"),
        "drop_factor": Kind(confirm=True, field="drop_factor_per_ml", bare="just_drop_factor"),
        "gauge": Kind(bare="just_gauge", complaint=_gauge),
        "expiry": Kind(),
        "allergies": Kind(bare="just_allergies"),
        "limb": Kind(bare="just_limb"),
        "site": Kind(),
        "antiseptic": Kind(),
        "attempts": Kind(bare="just_attempts"),
        "count": Kind(complaint=_count),
    }
)
"""By grammar rule. A checklist names these in `value`."""


def last_day(expiry: str) -> date:
    """The last day of "2028-03" or "2028-03-31": a month means its last day."""
    year, month, *day = (int(part) for part in expiry.split("-"))
    return date(year, month, day[0] if day else monthrange(year, month)[1])


def clashes(value: str, avoided: str) -> bool:
    """Whether a value is to be avoided: "left forearm" where "left" is, "latex" where "latex, tape" are."""
    kept = {part.strip() for part in avoided.split(",")} - {"none", ""}
    return any(value == part or value.startswith(f"{part} ") for part in kept)


def ground(value: str, equal: str, avoided: str) -> str:
    """Why a value does not go with what it must equal and what it must avoid, as the ground of a stop; empty
    where it does, or where nothing was said yet."""
    if value and equal not in ("", value):
        return "differs"
    return "clash" if clashes(value, avoided) else ""


def as_flow(values: Mapping[str, str]) -> Flow:
    """The quantities among values (by kind), as a flow."""
    known = {
        KINDS[kind].field: Fraction(value)
        for kind, value in values.items()
        if kind in KINDS and KINDS[kind].field
    }
    return Flow(**known)
