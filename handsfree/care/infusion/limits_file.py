"""Reads limits of local policy from its TOML, and refuses a broken one by file and line: docs/policy.md."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from handsfree.care.infusion.limits import LIMITS, Limit
from handsfree.care.infusion.patient import Patient
from handsfree.errors import PolicyError
from handsfree.words import worded

_KEYS = {"quantity", "unit", "low", "high", "hard", "patient", "source"}
_UNITS = {limit.quantity: limit.unit for limit in LIMITS}
_SEE = worded("See docs/policy.md for what can stand here.")


def read_limits(text: str, file: str) -> tuple[Limit, ...]:
    """The limits of a policy whose TOML was read before. Raises PolicyError by file and line."""
    rows = text.splitlines()
    heads = [i for i, row in enumerate(rows, 1) if re.match(r"\s*\[\[\s*limit\s*\]\]", row)]
    tables = tomllib.loads(text, parse_float=Fraction).get("limit", [])
    if not isinstance(tables, list) or len(tables) != len(heads):
        raise PolicyError(file, max([1, *heads]), worded("begin each limit with its own [[limit]]."), _SEE)
    limits: list[Limit] = []
    for table, head in zip(tables, heads, strict=True):
        wrong, key = _fault(table)
        if wrong:
            raise PolicyError(file, _line(rows, head, key), wrong, _SEE)
        limits.append(_limit(table))
        if any(_place(one) == _place(limits[-1]) for one in limits[:-1]):
            twice = worded("this limit of the {quantity} stands here twice.", quantity=limits[-1].quantity)
            raise PolicyError(file, head, twice, _SEE)
    return tuple(limits)


def _fault(table: Mapping[str, Any]) -> tuple[str, str]:
    """What is wrong with one limit, and the key at fault; both empty where nothing is."""
    unknown = "".join(sorted(set(table) - _KEYS)[:1])
    bounds = [table[key] for key in ("low", "high") if key in table]
    quantity, unit = table.get("quantity"), table.get("unit")
    known, names = _UNITS.get(str(quantity)), ", ".join(_UNITS)
    checks = (
        (not unknown, worded("the key {key} is not known in a limit.", key=unknown), unknown),
        (
            quantity in _UNITS,
            worded("no limit is of {quantity!r}: take one of {names}.", quantity=quantity, names=names),
            "quantity",
        ),
        (unit == known, worded("its unit is {unit!r}.", unit=known), "unit"),
        (bounds, worded("a limit needs low, high or both."), "low"),
        (all(map(_is_bound, bounds)), worded("low and high are numbers, not below zero."), "low"),
        (_rise(bounds), worded("low is above high."), "low"),
        (isinstance(table.get("hard", False), bool), worded("hard is true or false."), "hard"),
        (
            table.get("patient", "adult") in [*Patient],
            worded("patient is one of {patients}.", patients=", ".join(Patient)),
            "patient",
        ),
        (str(table.get("source", "")).strip(), worded("this limit has no source."), "source"),
    )
    return next(((wrong, key) for fine, wrong, key in checks if not fine), ("", ""))


def _is_bound(bound: object) -> bool:
    return isinstance(bound, int | Fraction) and not isinstance(bound, bool) and bound >= 0


def _rise(bounds: list[Any]) -> bool:
    return not all(map(_is_bound, bounds)) or bounds == sorted(bounds)


def _limit(table: Mapping[str, Any]) -> Limit:
    low, high = (Fraction(table[key]) if key in table else None for key in ("low", "high"))
    patient = Patient(table["patient"]) if "patient" in table else None
    quantity, unit = table["quantity"], table["unit"]
    return Limit(quantity, low, high, unit, table["source"], table.get("hard", False), patient)


def _place(limit: Limit) -> tuple[str, bool, Patient | None]:
    return limit.quantity, limit.hard, limit.patient


def _line(rows: list[str], head: int, key: str) -> int:
    """The line of a key behind the head of its table; the head's own where it does not stand there."""
    for i, row in enumerate(rows[head:], head + 1):
        if row.lstrip().startswith("["):
            break
        if re.match(rf"\s*{key}\b", row):
            return i
    return head
