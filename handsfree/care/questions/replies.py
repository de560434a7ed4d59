"""What is asked about numbers, completed, changed and used: from a command to events."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Say
from handsfree.care.decision import Decision
from handsfree.care.infusion.answer import Answer
from handsfree.care.infusion.drugs import DRIP_CAUTION, no_drip
from handsfree.care.infusion.refused import Refused
from handsfree.care.proposals import read_back
from handsfree.care.questions.lacking import lacking
from handsfree.care.questions.plan import asker, for_plan, with_plan
from handsfree.care.questions.question import FINISH, NUMBER, Question, Subject, read_question, said_twice
from handsfree.care.questions.working import answer
from handsfree.care.rules import Mode
from handsfree.care.session import Session


def _ask(decision: Decision, said: Say) -> None:
    """A question of its own."""
    if not _told_twice(decision, said.reason):
        _work_out(decision, with_plan(read_question(said.reason), decision.session))


def _count(decision: Decision, said: Say) -> None:
    """Drops that were counted, where no step waits for them."""
    _work_out(decision, with_plan(Question(Subject.COUNT, "", {"count": said.reason}), decision.session))


def _change(decision: Decision, said: Say) -> None:
    """The last question with something told anew, or with what it lacked."""
    asked = decision.session.asked
    if asked is None:
        decision.add(e.CommandRefused(refusals.NO_QUESTION))
    elif not _told_twice(decision, said.reason):
        changed = read_question(asked.question).changed(said.reason, asked.lacks)
        if NUMBER in changed.told:
            decision.add(e.CommandRefused(refusals.NO_UNIT))
        else:
            _work_out(decision, with_plan(changed, decision.session))


def _told_twice(decision: Decision, text: str) -> bool:
    """Whether two values of one quantity were told, so that it is not known which is meant."""
    name = said_twice(text)
    if name:
        decision.add(e.CommandRefused(refusals.two_values(name)))
    return bool(name)


def _work_out(decision: Decision, question: Question) -> None:
    lacks = lacking(question)
    if lacks:
        decision.add(e.QuestionLacking(question.text, lacks))
        return
    match _answered(question, decision.session):
        case Refused(reason):
            decision.add(e.QuestionRefused(question.text, reason))
        case Answer() as found:
            numbers = tuple(e.Number(one.name, one.number.exact, one.unit) for one in found.found)
            decision.add(e.QuestionAnswered(question.text, numbers, found.cautions, found.unusual))
            if question.wants == FINISH and (time_min := _time_of(question, found)):
                _tell_end(decision, time_min)


def _answered(question: Question, session: Session) -> Answer | Refused:
    return answer(question, asker(question, session, _written))


def _written(number: Fraction | int, unit: str) -> str:
    return f"{number} {unit}"


def _use(decision: Decision, _: Say) -> None:
    """Propose the answer for the plan: it is read back, and counts once it is confirmed."""
    session = decision.session
    question = read_question(session.asked.question) if session.asked and session.asked.answered else None
    if question is None:
        decision.add(e.CommandRefused(refusals.NO_ANSWER))
        return
    found = _answered(question, session)
    refused = found if isinstance(found, Refused) else no_drip(question.named("name"))
    if refused:
        decision.add(e.CommandRefused(refused.reason))
    elif isinstance(found, Answer):
        _propose(decision, question, found)


def _propose(decision: Decision, question: Question, found: Answer) -> None:
    """Propose what differs from the plan; what is the same was confirmed."""
    session = decision.session
    takers = [
        (step, kind) for step in session.checklist.steps for kind in step.value if session.applies(step)
    ]
    for kind, value in for_plan(question, found).items():
        step = next((step for step, taken in takers if taken == kind), None)
        mark = session.mark(step.name) if step else None
        if step and mark and (mark.kind, mark.value) != (kind, value):
            decision.add(e.ValueProposed(step.name, kind, value))
    if not decision.has(e.ValueProposed):
        decision.add(e.CommandRefused(refusals.NOTHING_NEW))
        return
    dripped = (DRIP_CAUTION,) if question.subject is Subject.DOSE else ()
    decision.add(e.AnswerUsed((*found.unusual, *dripped)))
    read_back(decision)


def _finish(decision: Decision, _: Say) -> None:
    """When the bag that runs is empty; else what was asked last, or the plan, if it were started now."""
    session = decision.session
    if session.bag is not None:
        ends = session.bag.empty_at()
        left_s = max(0, int((ends - decision.at).total_seconds()))
        decision.add(e.FinishTold(ends, left_s, running=True))
        return
    time_min = _time_asked(session) or (session.rate.time_min if session.rate else None)
    if time_min is None:
        decision.add(e.CommandRefused(refusals.NOTHING_RUNS))
    else:
        _tell_end(decision, time_min)


def _tell_end(decision: Decision, time_min: Fraction) -> None:
    """When an infusion ends, if it is started now."""
    left_s = round(time_min * 60)
    decision.add(e.FinishTold(decision.at + timedelta(seconds=left_s), left_s, running=False))


def _time_asked(session: Session) -> Fraction | None:
    """How long an infusion takes that was asked about."""
    if session.asked is None or not session.asked.answered:
        return None
    question = read_question(session.asked.question)
    found = _answered(question, session) if question.subject is Subject.FLOW else None
    return _time_of(question, found) if isinstance(found, Answer) else None


def _time_of(question: Question, found: Answer) -> Fraction | None:
    """The time of an infusion in minutes, as it was told, or else as it was worked out."""
    worked_out = (one.number.exact for one in found.found if one.name == "time")
    return question.value("time") or next(worked_out, None)


def _keep_open(decision: Decision, _: Say) -> None:
    """No rate keeps every vein open, and none is assumed."""
    decision.add(e.CommandRefused(refusals.KEEP_OPEN))


def drop_question(decision: Decision, why: str) -> None:
    """What the question lacks is not waited for any longer; what was asked before is asked again."""
    asking = decision.session.mode is Mode.ASKING
    decision.add(e.QuestionDropped(why))
    if asking:
        decision.again()


def lapse_question(decision: Decision) -> None:
    """Drop a question whose answer did not come in time."""
    asked = decision.session.asked
    if asked is not None and asked.due is not None and asked.due <= decision.at:
        drop_question(decision, "lapsed")


ASKED: Mapping[str, Callable[[Decision, Say], None]] = MappingProxyType(
    {
        "question": _ask,
        "bare_question": _ask,
        "count": _count,
        "follow_up": _change,
        "completion": _change,
        "use_that": _use,
        "finish_asked": _finish,
        "keep_open": _keep_open,
    }
)
"""What each command about numbers does."""
