"""Pint's own definitions of units, as an oracle: ours are not used."""

from __future__ import annotations

from functools import cache
from typing import Any

from pint import UnitRegistry


@cache
def oracle() -> UnitRegistry[Any]:
    """Pint's default units, and those of the trade that it lacks, each with a dimension of its own."""
    registry: UnitRegistry[Any] = UnitRegistry()
    for definition in (
        "gtt = [drops]",
        "units = [activity]",
        "milliunits = 0.001 * units",
        "mEq = [charge_eq]",
    ):
        registry.define(definition)
    registry.define("bags = []")
    registry.define("teaching_pound = kg / 2.2")
    return registry


def size(value: float, unit: str) -> Any:
    """A quantity as pint understands it; mcg is its microgram, and lb is a teaching pound."""
    spelled = unit.replace("mcg", "microgram").replace("lb", "teaching_pound").replace("%", "percent")
    return oracle().Quantity(value, spelled or "dimensionless")
