"""What may be said now in a practice run."""

from __future__ import annotations

from handsfree.care.checklist import Checklist
from handsfree.care.practice.rules import ANSWERS, EMERGENCIES, FAULTS, OPEN, commands
from handsfree.care.practice.session import Practice
from handsfree.signals import REPORT, Listen

ALONE = "stop"
"""Heard without a call word at any time, as emergencies are."""


def listen(session: Practice, called: bool = False) -> Listen:
    """Commands to be said alone; steps and findings, which are heard in the midst of other talk.

    called: a call word is wanted, where there is one; steps and findings never need it.
    """
    rules = commands(session.mode)
    emergencies = tuple(one.name for one in session.checklist.emergencies)
    if session.mode in OPEN[EMERGENCIES]:
        rules += emergencies
    if session.mode in OPEN[FAULTS]:
        rules += tuple(one.name for one in session.checklist.faults)
    answers = told_rules(session.checklist) if session.mode in OPEN[ANSWERS] else ()
    uncalled = (ALONE, REPORT, *emergencies) if called else (*rules, REPORT)
    return Listen(rules, answers, uncalled=uncalled, loose=bool(answers) and session.loose)


def told_rules(checklist: Checklist) -> tuple[str, ...]:
    """Names of all rules by which steps and findings are told."""
    steps = (rule for step in checklist.steps for rule in step.rules)
    return tuple(dict.fromkeys((*steps, *(one.name for one in checklist.findings))))
