"""A sign of life: in a long silence, while an answer is waited for, the session says once that it listens."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.session import Session


def with_sign(session: Session, event: e.Event, at: datetime) -> Session:
    """The session after an event, with the time at which its next sign of life is due.

    Time runs from what was said last, by either side. One sign is enough until somebody speaks.
    """
    match event:
        case e.SessionStarted(signs_after_s=after_s) | e.SessionResumed(signs_after_s=after_s):
            session = replace(session, signs_after_s=after_s)
        case e.Played() | e.PlayingFailed() if session.sign_due is not None:
            pass
        case e.SpeechUnderstood() | e.SpeechNotUnderstood() | e.SpeechWavered() | e.Undone():
            pass
        case e.SignGiven():
            return replace(session, sign_due=None)
        case _:
            return session
    after_s = session.signs_after_s
    due = at + timedelta(seconds=after_s) if after_s else None
    return session if due == session.sign_due else replace(session, sign_due=due)
