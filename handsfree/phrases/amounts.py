"""Numbers, times and counts inside a matched rule, as the text that the record keeps."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from handsfree.phrases import numbers
from handsfree.signals import Node


def tags(node: Node) -> Iterator[str]:
    """All tags of a node and of the rules inside, in order, but for those of numbers."""
    if node.rule not in numbers.RULES:
        yield from node.tags
        for child in node.children:
            yield from tags(child)


def tagged(node: Node) -> str:
    """The same as one text."""
    return ", ".join(tags(node))


def uses(node: Node, rule: str) -> list[Node]:
    """Every use of a rule inside, the node itself included."""
    found = [node] if node.rule == rule else []
    return found + [use for child in node.children for use in uses(child, rule)]


def number(node: Node) -> str:
    """The first number inside, else what the tags say."""
    kinds = ("decimal", "bodyweight", "percentage", "whole", "small", "large")
    found = next(filter(None, (uses(node, rule) for rule in kinds)), [])
    return str(numbers.value(found[0])) if found else tagged(node)


def minutes(node: Node) -> str:
    """A time in minutes; a number alone behind "over" is hours."""
    in_hours = [use for rule in ("hours", "hours_alone") for use in uses(node, rule)]
    in_minutes = uses(node, "minutes")
    if not in_hours and not in_minutes:
        return tagged(node)
    hours = sum((Fraction(number(use)) for use in in_hours), Fraction())
    return str(hours * 60 + sum((Fraction(number(use)) for use in in_minutes), Fraction()))


def count(node: Node) -> str:
    """Drops and seconds: `8/15`."""
    return f"{number(uses(node, 'whole')[0])}/{tagged(node)}"
