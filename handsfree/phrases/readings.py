"""What a matched value means: from the node of a value's rule to the text that the record keeps."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import replace
from types import MappingProxyType

from handsfree.phrases import numbers
from handsfree.phrases.amounts import count, minutes, number, tagged, tags, uses
from handsfree.phrases.questions import question
from handsfree.signals import LINE_NAME, REPORT, Node


def reading(node: Node) -> str:
    """The value of a matched rule: "1000" for a litre, "2028-03" for an expiry; empty where it has none.

    Numbers are exact, in the unit of the rule: mL, minutes, mL/h, drops/mL. Raises nothing: a rule without
    a reading of its own gives its tags.
    """
    return _READINGS.get(node.rule, tagged)(node)


def by_reading(node: Node) -> Hashable:
    """What two sentences must share to be the same for a session: line, rules of answers, and values."""
    line, node = led_by(node)
    parts = node.children if node.rule == REPORT else (node,)
    return line, node.rule, tuple((part.rule, reading(part)) for part in parts)


def led_by(node: Node) -> tuple[str, Node]:
    """The name of the line with which a sentence begins, empty where it has none, and the sentence itself."""
    leads = bool(node.children) and node.children[0].rule == LINE_NAME
    if not leads or _READINGS.get(node.rule) is _line_name:
        return "", node
    return " ".join(node.children[0].words), replace(node, children=node.children[1:])


def _timer(node: Node) -> str:
    """Minutes, and what for: `10/turn the patient`; `10/` where nothing was said of it."""
    (span,) = uses(node, "span")
    return f"{minutes(span)}/{', '.join(tagged(use) for use in uses(node, 'task'))}"


def _line_name(node: Node) -> str:
    """The name of a line or patient, as it was said: "bed two"."""
    (name,) = uses(node, "line_name")
    return " ".join(name.words)


def _reason(node: Node) -> str:
    """The reason that was given in the same breath, empty where there was none."""
    return ", ".join(tagged(use) for use in uses(node, "reason"))


def _expiry(node: Node) -> str:
    """`2028-03` for a month, `2028-03-31` for a day."""
    parts = [int(numbers.value(use)) for rule in ("year", "month", "day") for use in uses(node, rule)]
    return "-".join(f"{part:02}" for part in parts)


def _gauge(node: Node) -> str:
    """One gauge; two where colour and number disagree."""
    return "/".join(dict.fromkeys(tags(node)))


def _site(node: Node) -> str:
    return " ".join(tags(node))


def _identity(node: Node) -> str:
    tag = uses(node, "tag")
    return f"tag {number(tag[0])}" if tag else tagged(node)


def _name(node: Node) -> str:
    """A name of the list, or what was spelled: `AB2`; empty where nobody is named."""
    spelled = uses(node, "spelled")
    return "".join(tags(spelled[0])) if spelled else tagged(node)


def _mark(node: Node) -> str:
    """Step and verdict: `dry/missed`; `/missed` where the verdict stands alone."""
    named, verdict = uses(node, "named"), uses(node, "verdict")[0]
    return f"{tagged(named[0]) if named else ''}/{tagged(verdict)}"


_READINGS: Mapping[str, Callable[[Node], str]] = MappingProxyType(
    {
        "volume": number,
        "just_volume": number,
        "infusion_time": minutes,
        "just_infusion_time": minutes,
        "rate": number,
        "chosen": number,
        "drop_factor": number,
        "just_drop_factor": number,
        "gauge": _gauge,
        "just_gauge": _gauge,
        "expiry": _expiry,
        "count": count,
        "site": _site,
        "identity": _identity,
        "remind": _timer,
        "later": minutes,
        "level": number,
        "just_drops": number,
        "bag_changed": number,
        "not_needed": _reason,
        **dict.fromkeys(("question", "bare_question", "follow_up", "completion"), question),
        "trainee": _name,
        "next_trainee": _name,
        "drill_name": _name,
        "verdict_last": _mark,
        "verdict_first": _mark,
        "verdict_alone": _mark,
        "line": _line_name,
        "line_named": _line_name,
        "line_begun": _line_name,
    }
)
