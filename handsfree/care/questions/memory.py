"""How events about questions change a session. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.questions.question import Asked
from handsfree.care.rules import Mode
from handsfree.care.session import Session

ASKING_S = 30
"""What a question lacks is waited for so long, from when it was asked for: long enough to look at a pack
(common practice, no source)."""


def questioned(session: Session, event: e.Event, at: datetime) -> Session | None:
    """The session after an event about questions; None for any other event."""
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
        case e.AnswerUsed(unusual) if session.proposal is not None:
            return replace(session, proposal=replace(session.proposal, besides=unusual))
        case e.Played() | e.PlayingFailed() if session.mode is Mode.ASKING and session.asked:
            return replace(session, asked=replace(session.asked, due=at + timedelta(seconds=ASKING_S)))
        case _:
            return None


def _back(session: Session) -> Session:
    """In the mode in which the question was asked."""
    return replace(session, mode=session.was, was=Mode.WALKING) if session.mode is Mode.ASKING else session
