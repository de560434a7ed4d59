"""Timers of steps: deadlines in the session, made when a step is closed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from handsfree.care.checklist import Checklist, Step, Wait


@dataclass(frozen=True, slots=True)
class Timer:
    """Something to be said at `due`.

    step: whose it is. until: steps whose words stop it. cue: it follows from the step being closed, and goes
    on when the step is reopened (a tourniquet stays on the arm); otherwise it is a wait before the step.
    """

    step: str
    due: datetime
    say: str
    urgent: bool = False
    until: tuple[str, ...] = ()
    cue: bool = True


def cues_of(step: Step, at: datetime) -> Iterator[Timer]:
    """What follows once the step is closed."""
    for cue in step.cues:
        due = at + timedelta(seconds=cue.after_s)
        yield Timer(step.name, due, cue.say, cue.urgent, step.until)


def waits_on(step: Step, checklist: Checklist, value: Callable[[str], str], at: datetime) -> Iterator[Timer]:
    """The waits of other steps that begin now that the step is closed."""
    for other in checklist.steps:
        if other.wait is not None and other.wait.since == step.name:
            due = at + timedelta(seconds=wait_s(other.wait, value))
            yield Timer(other.name, due, other.wait.say, until=(other.name,), cue=False)


def wait_s(wait: Wait, value: Callable[[str], str]) -> int:
    """How many seconds the wait lasts, by the value of another step where that decides."""
    return wait.values.get(value(wait.by), wait.s) if wait.by else wait.s
