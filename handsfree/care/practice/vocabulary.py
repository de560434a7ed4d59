"""The words of a practice run: steps said and announced, findings, and what an instructor says."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.care.checklist import Checklist, Finding, Step
from handsfree.care.vocabulary import SHIPPED, Vocabulary, Words, emergencies, written

INSTRUCTOR = "instructor"
"""The word with which an instructor begins, so that nothing a trainee says is taken for it."""


def practice_vocabulary(checklist: Checklist) -> Vocabulary:
    """What the checklist adds to the shipped grammars."""
    rules = [
        *(Words("step", step.name, told(step)) for step in checklist.steps if step.say),
        *(Words("finding", one.name, told(one)) for one in checklist.findings),
        *(Words("fault", one.name, f"{INSTRUCTOR} ({one.say})") for one in checklist.faults),
        *emergencies(checklist),
        *_seen(checklist),
    ]
    return written(checklist, rules, (*SHIPPED, "practice"))


def told(one: Step | Finding) -> str:
    """All words for it: said and announced."""
    return f"({one.say}) | ({one.announce})" if one.announce else one.say


def _seen(checklist: Checklist) -> Iterator[Words]:
    """What an instructor saw: the step that was said last, or one that is named by its words."""
    named = " | ".join(f"<{step.name}> {{{step.name}}}" for step in checklist.steps if step.say)
    step = f" [{named}]" if named else ""
    yield Words("", "saw", f"{INSTRUCTOR} (saw | seen) [that]{step}")
    yield Words("", "saw_not", f"{INSTRUCTOR} (did not see | has not seen | not seen) [that]{step}")
