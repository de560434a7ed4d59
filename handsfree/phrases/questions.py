"""What is told in a question: from its node to the text that the record keeps.

    flow for drop rate; volume=1000 mL; time=480 min; drop factor=15 gtt/mL

First what it is about and what it wants, then each part by its name. A follow-up has parts alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from handsfree.phrases.amounts import count, minutes, number, tagged, tags
from handsfree.signals import Node

ABOUT = "ask_"
"""Begins the names of rules that tell what a question is about."""

_LEADS = ("lead_words", "lead_long", "lead_when")
"""Rules that may tell what is wanted."""

PARTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "volume_told": ("volume", "mL"),
        "bare_volume": ("volume", "mL"),
        "time_told": ("time", "min"),
        "hours_told": ("time", "min"),
        "bare_time": ("time", "min"),
        "rate_told": ("rate", "mL/h"),
        "drop_rate_told": ("drop rate", "gtt/min"),
        "drop_factor_told": ("drop factor", "gtt/mL"),
        "on_set": ("drop factor", "gtt/mL"),
        "bare_number": ("number", "none"),
        "wants_drops": ("wants", "as tagged"),
        "wants_that": ("wants", "as tagged"),
        "count": ("count", "drops/s"),
        "counted": ("count", "drops/s"),
        "left_told": ("left", "mL"),
        "time_left_told": ("time left", "min"),
        "name_told": ("name", "as tagged"),
        "dose_told": ("dose", "as said"),
        "unit_told": ("dose unit", "unit alone"),
        "want_told": ("want", "as said"),
        "drug_told": ("drug", "as said"),
        "bag_told": ("bag", "mL"),
        "per_mil": ("bag", "mL"),
        "weight_told": ("weight", "as said"),
        "patient_told": ("patient", "as tagged"),
        "percent_told": ("percent", "%"),
        "formula_told": ("formula", "as tagged"),
        "since_told": ("since", "min"),
        "given_told": ("given", "mL"),
        "per_kg_told": ("volume per kg", "mL/kg"),
        "method_told": ("method", "as tagged"),
    }
)
"""By grammar rule: the part's name, and its unit or where that is found."""


_ORDER = tuple(dict.fromkeys(name for name, _ in PARTS.values()))
"""In which parts are told, whatever was said first: the same told in another order means the same."""


def question(node: Node) -> str:
    """The text of a question, of a follow-up, or of what completes one."""
    inside = [*_inside(node)]
    about = next((one.rule for one in inside if one.rule.startswith(ABOUT)), _unnamed(inside))
    wants = next((tagged(one) for one in inside if one.rule in _LEADS and one.tags), "")
    head = " for ".join(filter(None, (about.removeprefix(ABOUT).replace("_", " "), wants)))
    heads = [head] if node.rule.endswith("question") else []
    parts = sorted(_parts(node), key=lambda part: _ORDER.index(part[0]))
    return "; ".join([*heads, *(f"{name}={value}" for name, value in parts)])


def _unnamed(inside: list[Node]) -> str:
    """What a question without a lead is about."""
    return f"{ABOUT}count" if any(one.rule == "count" for one in inside) else f"{ABOUT}flow"


def _parts(node: Node) -> Iterator[tuple[str, str]]:
    """Name and value of each part, in order."""
    for one in node.children:
        if one.rule in PARTS:
            name, unit = PARTS[one.rule]
            yield name, _value(one, unit)
        else:
            yield from _parts(one)


def _value(node: Node, unit: str) -> str:
    match unit:
        case "min":
            return f"{minutes(node)} min"
        case "as tagged":
            return tagged(node)
        case "drops/s":
            return count(node)
        case "unit alone":
            return _unit(node)
        case "none":
            return number(node)
        case "as said":
            return f"{number(node)} {_unit(node)}"
        case _:
            return f"{number(node)} {unit}"


def _unit(node: Node) -> str:
    """The unit as it is written: kilograms before the time, whatever was said first."""
    amount, *per = tags(node)
    return "/".join([amount, *sorted(per, key=lambda unit: unit != "kg")])


def _inside(node: Node) -> Iterator[Node]:
    yield node
    for child in node.children:
        yield from _inside(child)
