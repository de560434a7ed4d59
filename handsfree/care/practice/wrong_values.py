"""What is wrong with a value that was said: out of date, not the one ordered, one to be avoided."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from handsfree.care.checklist import Step
from handsfree.care.practice.marks import Saying
from handsfree.care.values import KINDS, ground, last_day


def wrong_value(step: Step, said: Saying, values: Mapping[str, str], attempts: int, today: date) -> str:
    """One of the grounds of a stop (`StopRaised.ground`), or what the kind of value complains of; empty where
    nothing is wrong, or the value was not heard for sure. values: by step, of those that are done."""
    if not said.value:
        return ""
    if step.in_date and last_day(said.value) < today:
        return "out_of_date"
    compared = ground(said.value, values.get(step.must_equal, ""), values.get(step.must_avoid, ""))
    if compared:
        return compared
    if step.counted and int(said.value) != attempts:
        return "attempts"
    return "disagrees" if KINDS[said.kind].complaint(said.value) else ""
