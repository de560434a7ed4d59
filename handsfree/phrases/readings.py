"""What a matched value means: from the node of a value's rule to the text that the record keeps."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType

from handsfree.phrases import numbers
from handsfree.signals import REPORT, Node


def reading(node: Node) -> str:
    """The value of a matched rule: "1000" for a litre, "2028-03" for an expiry; empty where it has none.

    Numbers are exact, in the unit of the rule: mL, minutes, mL/h, drops/mL. Raises nothing: a rule without
    a reading of its own gives its tags.
    """
    return _READINGS.get(node.rule, _tagged)(node)


def by_reading(node: Node) -> Hashable:
    """What two sentences must share to be the same for a session: rules of their answers, and values."""
    parts = node.children if node.rule == REPORT else (node,)
    return node.rule, tuple((part.rule, reading(part)) for part in parts)


def tags(node: Node) -> Iterator[str]:
    """All tags of a node and of the rules inside, in order."""
    yield from node.tags
    for child in node.children:
        yield from tags(child)


def _tagged(node: Node) -> str:
    return ", ".join(tags(node))


def _uses(node: Node, rule: str) -> list[Node]:
    found = [node] if node.rule == rule else []
    return found + [use for child in node.children for use in _uses(child, rule)]


def _number(node: Node) -> str:
    """The first number inside, else what the tags say."""
    uses = next(filter(None, (_uses(node, rule) for rule in ("decimal", "whole", "small"))), [])
    return str(numbers.value(uses[0])) if uses else _tagged(node)


def _minutes(node: Node) -> str:
    """A time in minutes; a number alone behind "over" is hours."""
    if not (_uses(node, "hours") or _uses(node, "minutes") or _uses(node, "hours_alone")):
        return _tagged(node)
    in_hours = sum(
        (Fraction(_number(use)) for rule in ("hours", "hours_alone") for use in _uses(node, rule)), Fraction()
    )
    in_minutes = sum((Fraction(_number(use)) for use in _uses(node, "minutes")), Fraction())
    return str(in_hours * 60 + in_minutes)


def _timer(node: Node) -> str:
    """Minutes, and what for: `10/turn the patient`; `10/` where nothing was said of it."""
    (span,) = _uses(node, "span")
    return f"{_minutes(span)}/{', '.join(_tagged(use) for use in _uses(node, 'task'))}"


def _reason(node: Node) -> str:
    """The reason that was given in the same breath, empty where there was none."""
    return ", ".join(_tagged(use) for use in _uses(node, "reason"))


def _expiry(node: Node) -> str:
    """`2028-03` for a month, `2028-03-31` for a day."""
    parts = [int(numbers.value(use)) for rule in ("year", "month", "day") for use in _uses(node, rule)]
    return "-".join(f"{part:02}" for part in parts)


def _count(node: Node) -> str:
    """Drops and seconds: `8/15`."""
    over_s = (*node.tags, *map(_tagged, _uses(node, "window")))
    return f"{_number(_uses(node, 'whole')[0])}/{''.join(over_s)}"


def _gauge(node: Node) -> str:
    """One gauge; two where colour and number disagree."""
    return "/".join(dict.fromkeys(tags(node)))


def _site(node: Node) -> str:
    return " ".join(tags(node))


def _identity(node: Node) -> str:
    tag = _uses(node, "tag")
    return f"tag {_number(tag[0])}" if tag else _tagged(node)


_READINGS: Mapping[str, Callable[[Node], str]] = MappingProxyType(
    {
        "volume": _number,
        "just_volume": _number,
        "infusion_time": _minutes,
        "just_infusion_time": _minutes,
        "rate": _number,
        "chosen": _number,
        "drop_factor": _number,
        "just_drop_factor": _number,
        "gauge": _gauge,
        "just_gauge": _gauge,
        "expiry": _expiry,
        "count": _count,
        "site": _site,
        "identity": _identity,
        "remind": _timer,
        "later": _minutes,
        "level": _number,
        "bag_changed": _number,
        "not_needed": _reason,
    }
)
