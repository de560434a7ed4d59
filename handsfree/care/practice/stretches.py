"""Stretches of time that rules limit: a tie of the tourniquet, cleaning, drying, a needle that is open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care.assessment import Rule
from handsfree.care.practice.marks import Failure, Saying, Stretch


def stretches(rule: Rule, sayings: Sequence[Saying], values: Mapping[str, str]) -> tuple[Stretch, ...]:
    """Every stretch of one rule, in order.

    What begins it anew before its end restarts a time that must be long enough, and does not restart one that
    must be short. Said once more at once, an end counts from there: it was too early, and is set right.
    """
    least_s = rule.values.get(values.get(rule.by, ""), rule.at_least_s) if rule.by else rule.at_least_s
    found: list[Stretch] = []
    last = ""
    for saying in sayings:
        running = bool(found) and found[-1].ended is None
        if saying.step in rule.begins and not running:
            found.append(Stretch(rule, saying.at, None, least_s))
        elif saying.step in rule.begins and rule.at_least_s:
            found[-1] = replace(found[-1], began=saying.at)
        elif saying.step in rule.ends and found and (running or last in rule.ends):
            found[-1] = replace(found[-1], ended=saying.at)
        last = saying.step
    return tuple(found)


def failures(
    rule: Rule, found: Sequence[Stretch], sayings: Sequence[Saying], at: datetime
) -> Iterator[Failure]:
    """What was too short, too long, or done in between, up to the time `at`."""
    for one in found:
        too_long = one.began + timedelta(seconds=rule.at_most_s)
        if one.took_s is not None and one.ended is not None and one.took_s < one.least_s:
            step = rule.ends[0] if len(rule.ends) == 1 else ""
            yield Failure(rule.name, one.ended, rule.why, step, "too short", rule.critical)
        if rule.at_most_s and (one.ended or at) > too_long:
            yield Failure(rule.name, too_long, rule.why, "", "too long", rule.critical)
        inside = [said for said in sayings if said.step in rule.never and _in(said.at, one)]
        for said in inside[:1]:
            yield Failure(rule.name, said.at, rule.why, said.step, "not in between", rule.critical)


def _in(at: datetime, stretch: Stretch) -> bool:
    return stretch.began < at and (stretch.ended is None or at < stretch.ended)
