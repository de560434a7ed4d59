"""How events about questions change a session. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from handsfree.care import events as e
from handsfree.care.questions.question import Asked
from handsfree.care.rules import Mode
from handsfree.care.session import Session

ASKING_S = 30
"""What a question lacks is waited for so long, from when it was asked for: long enough to look at a pack
(common practice, no source)."""


QuestionEvent = e.QuestionLacking | e.QuestionAnswered | e.QuestionRefused | e.QuestionDropped | e.AnswerUsed


def questioned(session: Session, event: QuestionEvent, at: datetime) -> Session:
    """The session after an event about questions."""
    match event:
        case e.QuestionLacking(question, lacks):
            was = session.was if session.mode is Mode.ASKING else session.mode
            asked = Asked(question, lacks, at + timedelta(seconds=ASKING_S))
            return replace(session, mode=Mode.ASKING, was=was, asked=asked)
        case e.QuestionAnswered(question):
            return replace(_back(session), asked=Asked(question, answered=True))
        case e.QuestionRefused(question):
            return replace(_back(session), asked=Asked(question))
        case e.QuestionDropped():
            return replace(_back(session), asked=None)
        case e.AnswerUsed(unusual):
            besides = session.proposal and replace(session.proposal, besides=unusual)
            return replace(session, proposal=besides)
        case _:
            assert_never(event)


def asked_when_said(asked: Asked, at: datetime) -> Asked:
    """What is asked for, after it was said to its end: only now can it be answered."""
    return replace(asked, due=at + timedelta(seconds=ASKING_S))


def _back(session: Session) -> Session:
    """In the mode in which the question was asked."""
    return replace(session, mode=session.was, was=Mode.WALKING) if session.mode is Mode.ASKING else session
