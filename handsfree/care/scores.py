"""The score that follows from the signs that were found, by the table of the checklist. Pure."""

from __future__ import annotations

from datetime import datetime

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.checklist import Score
from handsfree.care.session import Session


def signs(session: Session) -> tuple[str, ...]:
    """What was found at the steps of this walk, by the findings that closed them."""
    values = (session.value(step.name) for step in session.checklist.steps if not step.value)
    return tuple(value for value in values if value)


def holds(score: Score, found: tuple[str, ...]) -> bool:
    """Whether enough of its signs were found; all of them where the table does not say how many."""
    return len(set(score.signs) & set(found)) >= (score.least or len(score.signs))


def score_told(session: Session, _: datetime) -> e.Event:
    """The highest score that holds, and the signs that it does not account for."""
    found = signs(session)
    rows = sorted(session.checklist.scores, key=lambda score: -score.score)
    row = next((score for score in rows if holds(score, found)), None)
    if row is None:
        return e.CommandRefused(refusals.NO_SCORE)
    known = {sign for score in rows for sign in score.signs}
    beyond = tuple(sign for sign in found if sign in known and sign not in row.signs)
    return e.ScoreTold(row.score, tuple(sign for sign in found if sign in row.signs), beyond)
