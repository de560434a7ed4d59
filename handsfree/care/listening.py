"""What may be said now: from the session to the one value that goes back to the ear."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from handsfree.care.choices import numbers
from handsfree.care.nesting import askable
from handsfree.care.path import answering, in_reach, phase_at_hand
from handsfree.care.rules import ANSWERS, CHECKLISTS, EMERGENCIES, OPEN, QUESTIONS, Mode, commands
from handsfree.care.session import Session, State
from handsfree.care.values import KINDS
from handsfree.signals import LINE_NAME, REPORT, Listen

_ASKS = {
    Mode.CONFIRMING: "correct",
    Mode.ENDING: "end_it",
    Mode.REASONING: "reason",
    Mode.ASKING: "completion",
}
ALL_DONE = "end"
"""The question that is open when every step is done."""

STOP = "stop"
"""Heard without a call word at any time, as emergencies are: who calls for silence or help must not have to
remember a name. Taken wrongly, it costs a moment's silence or a reminder, and changes no step."""


def listen(session: Session, called: bool = False) -> Listen:
    """Rules to be heard alone, answers of which several may come in one breath, and the open question.

    called: nothing was asked just now, so that a call word is wanted, where there is one.
    """
    mode, others = session.mode, () if session.under else session.others
    shut = {*_shut(session)}
    rules = [rule for rule in commands(mode) if rule not in shut]
    emergencies = tuple(one.name for one in session.checklist.emergencies)
    if mode in OPEN[EMERGENCIES]:
        rules += emergencies
    if mode in OPEN[CHECKLISTS]:
        every = dict.fromkeys(one.name for line in (session, *others) for one in askable(line))
        rules += [*every]
    answers: tuple[str, ...] = ()
    if mode in OPEN[ANSWERS]:
        here = phase_at_hand(session)
        found = session.checklist.findings
        rules += [one.name for one in found if one.phase == here or one.while_running in session.since]
        rules += _bare(session)
        steps = [*in_reach(session), *(step for other in others for step in answering(other.walks[-1]))]
        answers = tuple(dict.fromkeys(rule for step in steps for rule in step.rules))
    if session.choice is not None and not numbers(session.choice.candidates):
        candidates = session.choice.candidates
        answers = tuple(dict.fromkeys(answer.rule for said in candidates for answer in said.answers))
        named = ["line"] if candidates[0].line else []
        alone = (said.rule for said in candidates if not said.answers)
        rules += [rule for rule in dict.fromkeys((*alone, *named)) if rule not in rules]
    questions = {*_questions(session, answers)}
    rules = [rule for rule in rules if rule not in questions]
    uncalled = (STOP, *emergencies) if called else (*rules, REPORT)
    grammar = session.checklist.name if session.under else ""
    led_by = LINE_NAME if session.others else ""
    return Listen(
        tuple(rules), answers, asks=asks(session), uncalled=uncalled, grammar=grammar, led_by=led_by
    )


def asks(session: Session) -> str:
    """The question that is open: name of the step, `correct`, `reason`, `end` or `end_it`; empty while
    nothing is asked, or while a wait has to pass first. “Which of two?” belongs to the question before."""
    mode = session.was if session.mode is Mode.CHOOSING else session.mode
    if mode in (Mode.WALKING, Mode.STOPPED):
        waiting = any(not timer.cue and timer.step == session.step for timer in session.timers)
        return "" if waiting else session.step or ALL_DONE
    return _ASKS.get(mode, "")


def _shut(session: Session) -> Iterator[str]:
    """What confirms is not heard before its read-back was said to its end; a number chooses only between
    numbers; what is said of a reminder, a bag or a set is heard once there is one; "left arm" is no line
    while an arm is asked for."""
    if session.proposal is None or not session.proposal.asked:
        yield "correct"
    if session.choice is None or not numbers(session.choice.candidates):
        yield "chosen"
    if session.under is None:
        yield "leave"
    lines = (session, *session.others)
    if not session.others or "just_limb" in _bare(session):
        yield "line"
    if not any(one.latched() for one in lines):
        yield from ("reminded", "later", "not_needed")
    if not any(one.bag for one in lines):
        yield from ("level", "bag_asked", "given_asked", "bag_changed")
    if session.beat is None:
        yield from ("beat_off", "faster", "slower")
    if "bag" not in session.since:
        yield from ("beat", "count_drops")
    if session.window is None or not session.window.over:
        yield "just_drops"
    if not any("tubing" in one.since for one in lines):
        yield "tubing_changed"


def _questions(session: Session, answers: Collection[str]) -> Iterator[str]:
    """What of questions is not heard: any while a sharp is open, or by an ear that hears less well;
    those without a lead where their words may be answers; a follow-up before there was a question."""
    if session.reads_back:
        yield from ("question", "bare_question", "count", "follow_up", "use_that")
    if any(walk.sharp_open for walk in session.walks):
        yield from (*QUESTIONS, "use_that")
    if "drop_factor" in answers and not {"volume", "rate", "count"}.isdisjoint(answers):
        yield "bare_question"
    if session.asked is None:
        yield "follow_up"
    if session.asked is None or not session.asked.answered:
        yield "use_that"


def _bare(session: Session) -> Iterator[str]:
    """A bare number counts while its own question is open, or its read-back, and never otherwise; after a
    count it is that of the drops."""
    if session.window is not None and session.window.over:
        return
    asked = session.mode is Mode.WALKING or (session.proposal and session.step in session.proposal.values)
    if asked and session.step and session.mark(session.step).state is State.OPEN:
        kinds = session.checklist.step(session.step).value
        yield from (KINDS[kind].bare for kind in kinds if kind in KINDS and KINDS[kind].bare)
