"""What is answered to the user's questions: how, why, where, what is left, what can be said. Pure."""

from __future__ import annotations

from collections.abc import Mapping

from handsfree.care import events as e
from handsfree.care.checklist import Step
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.say.numbers import spoken
from handsfree.say.wording_left import MOST_CHOICES, left
from handsfree.say.wording_places import filled
from handsfree.say.wording_record import spoken_record
from handsfree.say.wording_values import capital

Examples = Mapping[str, str]
"""By grammar rule: a sentence that can be said now."""


def told(event: e.Told, session: Session, examples: Examples) -> str:
    """The answer to one question, by its topic."""
    step = session.checklist.step(session.step) if session.step else None
    match event.topic:
        case "how":
            return filled((step.how or step.do) if step else "All steps are done.", session)
        case "why":
            return filled(
                (step.why or "No reason is given in this checklist.") if step else "All steps are done.",
                session,
            )
        case "where":
            return _where(step, session)
        case "left" | "complete":
            return left(session)
        case "record":
            return spoken_record(session)
        case "help" | "choices":
            return _help(session, examples)
        case "nothing_to_undo":
            return "There is nothing to take back."
        case _:
            return ""


def _where(step: Step | None, session: Session) -> str:
    whose = f"{capital(session.name)}. " if session.name else ""
    if step is None:
        return f"{whose}All steps are done."
    phases = [phase.name for phase in session.checklist.phases]
    title = next(phase.title for phase in session.checklist.phases if phase.name == step.phase)
    number = f"{spoken(phases.index(step.phase) + 1)} of {spoken(len(phases))}"
    over = f"{session.checklist.title}. " if session.under else ""
    return f"{whose}{over}Phase {number}, {title}. {filled(step.do, session)}"


def _help(session: Session, examples: Examples) -> str:
    step = session.checklist.step(session.step) if session.step else None
    first = [*(step.rules if step and session.mode in (Mode.WALKING, Mode.STOPPED) else ())]
    usual = (
        "correct",
        "chosen",
        "first",
        "second",
        "wrong",
        "reason",
        "end_it",
        "carry_on",
        "next",
        "back",
        "how",
        "repeat",
        "left",
        "stop",
        "end",
    )
    said = [examples[rule] for rule in (*first, *usual) if rule in examples]
    return f"You can say: {', '.join(dict.fromkeys(said[:MOST_CHOICES]))}."
