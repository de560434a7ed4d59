"""Which step or finding is meant by words that belong to more than one."""

from __future__ import annotations

from handsfree.care.checklist import Step
from handsfree.care.commands import Answer
from handsfree.care.practice.sheet import Sheet


def meant(sheet: Sheet, answer: Answer) -> Step | str:
    """The step that was said, or the name of a finding.

    Of several steps with the same words it is one that a finding waits for; else one whose value is wrong so
    far; else, of those still open, the
    last one that other steps lead up to, if these are done; else the first one whose turn it is, or that is
    open; else the last that is done.
    """
    rules = (answer.rule, *answer.also)
    steps = [one for one in sheet.checklist.steps if sheet.applies(one) and set(one.rules) & set(rules)]
    if not steps:
        return next((rule for rule in rules if sheet.checklist.finding(rule) is not None), "")
    wanted = {name for names in sheet.answering.values() for name in names}
    waited_for = [step for step in steps if step.name in wanted]
    open_steps = [step for step in steps if step.name not in sheet.done]
    wrong = [step for step in steps if step.name in sheet.done and sheet.wrong(sheet.done[step.name])]
    ready = [step for step in open_steps if sheet.ready(step)]
    led_up_to = [step for step in ready if sheet.before(step)]
    return next(iter((*waited_for, *wrong, *reversed(led_up_to), *ready, *open_steps, steps[-1])))
