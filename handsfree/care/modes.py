"""What a session waits for: how events change its mode, and the way back from what came between. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from handsfree.care import events as e
from handsfree.care.choices import Choice
from handsfree.care.reminders.memory import set_back
from handsfree.care.rules import Mode
from handsfree.care.session import Session

CHOICE_S = 15
"""A question which of two was said lapses so soon: nothing was understood yet, and it can be said again."""

_QUESTIONS = (Mode.CHOOSING, Mode.ASKING, Mode.REASONING, Mode.ENDING)
BETWEEN = (*_QUESTIONS, Mode.HELD, Mode.ASLEEP)
"""What interrupts a mode, and leads back to it."""

ModeEvent = (
    e.SessionStarted
    | e.SessionResumed
    | e.SessionEnded
    | e.ChoiceAsked
    | e.ChoiceMade
    | e.ChoiceDropped
    | e.ReasonAsked
    | e.ReasonDropped
    | e.Held
    | e.Released
    | e.ListeningPaused
    | e.ListeningResumed
    | e.EndAsked
    | e.EndDropped
)


def awaited(session: Session, event: ModeEvent, at: datetime) -> Session:
    """What the session waits for."""
    match event:
        case e.ChoiceAsked(candidates):
            choice = Choice(candidates, at + timedelta(seconds=CHOICE_S))
            misses = session.misses + 1
            return replace(session, mode=Mode.CHOOSING, was=_lasting(session), choice=choice, misses=misses)
        case e.SessionResumed(reads_back=reads_back, set_back_s=set_back_s):
            session = set_back(session, timedelta(seconds=set_back_s))
            mode = Mode.WALKING if session.mode is Mode.OVER else _returned(session).mode
            return replace(session, mode=mode, was=Mode.WALKING, choice=None, reads_back=reads_back)
        case e.ReasonAsked(what):
            return replace(session, mode=Mode.REASONING, was=session.mode, reason_for=what)
        case e.Held():
            return replace(session, mode=Mode.HELD, was=_lasting(session), choice=None)
        case e.ListeningPaused():
            return replace(session, mode=Mode.ASLEEP, was=_lasting(session))
        case e.EndAsked():
            was = session.was if session.mode is Mode.HELD else session.mode
            return replace(session, mode=Mode.ENDING, was=was)
        case e.ReasonDropped() | e.Released() | e.ListeningResumed() | e.EndDropped():
            return _returned(session)
        case e.ChoiceMade() | e.ChoiceDropped():
            return replace(_returned(session), choice=None)
        case e.SessionStarted(intervals=intervals, limits=limits):
            return replace(session, intervals=intervals, limits=limits)
        case e.SessionEnded():
            return replace(session, mode=Mode.OVER, timers=(), proposal=None, choice=None)
        case _:
            assert_never(event)


def _lasting(session: Session) -> Mode:
    """The mode to come back to: the one before a question in between."""
    return session.was if session.mode in _QUESTIONS else session.mode


def _returned(session: Session) -> Session:
    between = session.mode in BETWEEN
    return replace(session, mode=session.was if between else session.mode, was=Mode.WALKING)
