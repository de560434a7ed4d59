"""What may be said now: from the session to the one value that goes back to the ear."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.care.path import in_reach, phase_at_hand
from handsfree.care.rules import ANSWERS, EMERGENCIES, OPEN, Mode, commands
from handsfree.care.session import Session, State
from handsfree.care.values import KINDS
from handsfree.signals import Listen

_ASKS = {Mode.CONFIRMING: "correct", Mode.ENDING: "end_it", Mode.REASONING: "reason"}
ALL_DONE = "end"
"""The question that is open when every step is done."""


def listen(session: Session) -> Listen:
    """Rules to be heard alone, answers of which several may come in one breath, and the open question."""
    mode = session.mode
    rules = list(commands(mode))
    if mode in OPEN[EMERGENCIES]:
        rules += [one.name for one in session.checklist.emergencies]
    answers: tuple[str, ...] = ()
    if mode in OPEN[ANSWERS]:
        here = phase_at_hand(session)
        rules += [one.name for one in session.checklist.findings if one.phase == here]
        rules += _bare(session)
        answers = tuple(dict.fromkeys(rule for step in in_reach(session) for rule in step.rules))
    return Listen(tuple(rules), answers, asks=asks(session))


def asks(session: Session) -> str:
    """The question that is open: name of the step, `correct`, `reason`, `end` or `end_it`; empty while
    nothing is asked, or while a wait has to pass first."""
    if session.mode in (Mode.WALKING, Mode.STOPPED):
        waiting = any(not timer.cue and timer.step == session.step for timer in session.timers)
        return "" if waiting else session.step or ALL_DONE
    return _ASKS.get(session.mode, "")


def _bare(session: Session) -> Iterator[str]:
    """A bare number counts while its own question is open, and never otherwise."""
    if session.mode is Mode.WALKING and session.step and session.mark(session.step).state is State.OPEN:
        kinds = session.checklist.step(session.step).value
        yield from (KINDS[kind].bare for kind in kinds if kind in KINDS and KINDS[kind].bare)
