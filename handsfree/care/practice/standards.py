"""Every rule that a run is marked by: those of the file, and those that follow from its steps."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.care.assessment import Rule
from handsfree.care.checklist import Checklist, Step
from handsfree.care.practice.plain import reason


def standards(checklist: Checklist) -> tuple[Rule, ...]:
    """The rules of the file, then for each step its `after` and its `wait`, unless a rule says so already."""
    own = checklist.rules
    derived = (rule for step in checklist.steps for rule in _of(step, own))
    return (*own, *derived)


def _of(step: Step, own: tuple[Rule, ...]) -> Iterator[Rule]:
    covered = {name for rule in own if rule.step == step.name for name in rule.after}
    after = tuple(name for name in step.after if name not in covered)
    if after:
        yield Rule(f"{step.name}_order", "", step=step.name, after=after)
    wait = step.wait
    if wait is not None and not any(step.name in rule.ends and rule.at_least_s for rule in own):
        yield Rule(
            f"{step.name}_wait",
            reason(step.why),
            begins=(wait.since,),
            ends=(step.name,),
            at_least_s=wait.s,
            by=wait.by,
            values=wait.values,
            critical=step.critical,
            source=step.source,
        )
