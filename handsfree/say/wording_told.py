"""What is answered to the user's questions: how, why, where, what is left, what can be said. Pure."""

from __future__ import annotations

from collections.abc import Mapping

from handsfree.care import events as e
from handsfree.care.checklist import Step
from handsfree.care.rules import Mode
from handsfree.care.session import Session, State
from handsfree.say.numbers import spoken
from handsfree.say.wording_left import MOST_CHOICES, left
from handsfree.say.wording_places import filled
from handsfree.say.wording_record import spoken_record
from handsfree.say.wording_values import capital
from handsfree.words import worded

Examples = Mapping[str, str]
"""By grammar rule: a sentence that can be said now."""


def told(event: e.Told, session: Session, examples: Examples) -> str:
    """The answer to one question, by its topic."""
    step = session.checklist.step(session.step) if session.step else None
    match event.topic:
        case "how":
            return filled(step.how or step.do, session) if step else worded("All steps are done.")
        case "why":
            if step is None:
                return worded("All steps are done.")
            return filled(step.why, session) or worded("No reason is given in this checklist.")
        case "where":
            return _where(step, session)
        case "left" | "complete":
            return left(session)
        case "record":
            return spoken_record(session)
        case "help" | "choices":
            return _help(session, examples)
        case "nothing_to_undo":
            return worded("There is nothing to take back.")
        case _:
            return ""


def _where(step: Step | None, session: Session) -> str:
    whose = f"{capital(session.name)}. " if session.name else ""
    if step is None:
        return whose + worded("All steps are done.")
    phases = [phase.name for phase in session.checklist.phases]
    title = next(phase.title for phase in session.checklist.phases if phase.name == step.phase)
    number, of = spoken(phases.index(step.phase) + 1), spoken(len(phases))
    over = f"{session.checklist.title}. " if session.under else ""
    phase = worded("Phase {number} of {of}, {title}.", number=number, of=of, title=title)
    return f"{whose}{over}{phase} {filled(step.do, session)}"


def _help(session: Session, examples: Examples) -> str:
    """The six most useful sentences of the moment: the answer that it waits for comes first."""
    step = session.checklist.step(session.step) if session.step else None
    asked = step if session.mode in (Mode.WALKING, Mode.STOPPED) else None
    own = asked.rules if asked else ()
    said = [examples[rule] for rule in (*own, *_USEFUL) if rule in examples and _helps(rule, step, session)]
    return worded("You can say: {said}.", said=", ".join(dict.fromkeys(said[:MOST_CHOICES])))


def _helps(rule: str, step: Step | None, session: Session) -> bool:
    """Whether a rule that is open leads anywhere: "next" closes neither a value nor a critical step."""
    if step is None:
        return rule not in ("next", "how", "skip")
    waits = session.mark(step.name).state is State.OPEN and bool(step.value or step.critical)
    return rule not in _WHEN_DONE and not (rule == "next" and waits)


_WHEN_DONE = ("upcoming", "bag_asked", "read_record")

_USEFUL = (
    *("correct", "chosen", "first", "second", "end_it", "reason", "wrong", "carry_on"),
    *_WHEN_DONE,
    *("next", "how", "repeat", "undo", "skip", "stop", "end"),
)
"""What the moment waits for, what is asked when no step is left, and what gets somebody on who is stuck."""
