"""How each event changes a drill: the record folded, one event after the other. Pure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.drill.marks import WITH_WORDS
from handsfree.care.drill.rules import Mode
from handsfree.care.drill.session import Mark, Run, Session

WORDS_S = 15
"""The words of a mark are waited for so many seconds: who has not begun by then has nothing to say of it."""


def evolve(session: Session, event: e.Event, at: datetime) -> Session:
    """The drill after an event. Events that change nothing but the record leave it as it is."""
    for change in (_names, _runs, _marks, _modes):
        changed = change(session, event, at)
        if changed is not None:
            return changed
    return session


def _names(session: Session, event: e.Event, at: datetime) -> Session | None:
    match event:
        case e.TraineeNamed(name):
            return replace(session, trainee=name, mode=Mode.READY)
        case e.DrillNamed(name):
            return replace(session, drill=name)
        case e.ConfirmingChanged(by_words):
            return replace(session, by_words=by_words)
        case e.EmergencyRaised(name):
            return replace(session, raised=name)
        case _:
            return None


def _runs(session: Session, event: e.Event, at: datetime) -> Session | None:
    match event:
        case e.RunBegun(said_at):
            runs = (*session.runs, Run(session.trainee, said_at))
            return replace(session, runs=runs, mode=Mode.RUNNING)
        case e.RunEnded(said_at):
            ended = _changed(session, lambda run: replace(run, ended=said_at))
            return replace(ended, mode=Mode.AFTER)
        case _:
            return None


def _marks(session: Session, event: e.Event, at: datetime) -> Session | None:
    match event:
        case e.MarkSet(number, kind, said_at, step, words):
            mark = Mark(number, kind, said_at, step, words)
            session = _changed(session, lambda run: replace(run, marks=(*run.marks, mark)))
            return replace(_noting(session, kind in WITH_WORDS, at), said=number)
        case e.MarkMoved(number, earlier_s):
            return _mark_changed(
                session, number, lambda mark: replace(mark, at=mark.at - timedelta(seconds=earlier_s))
            )
        case e.MarkDropped(number):
            left = _changed(session, lambda run: replace(run, marks=_without(run.marks, number)))
            return _noted(left)
        case e.WordsKept(number, text, sound):
            return _noted(_mark_changed(session, number, lambda mark: replace(mark, text=text, sound=sound)))
        case e.WordsMissed():
            return _noted(session)
        case _:
            return None


def _modes(session: Session, event: e.Event, at: datetime) -> Session | None:
    match event:
        case e.EndAsked():
            return replace(session, mode=Mode.ENDING, was=session.mode)
        case e.EndDropped():
            return replace(session, mode=session.was)
        case e.SessionEnded():
            lasting = session.was if session.mode in (Mode.ENDING, Mode.NOTING) else session.mode
            return replace(session, mode=Mode.OVER, was=lasting, words_due=None)
        case e.SessionResumed():
            between = session.mode in (Mode.ENDING, Mode.NOTING, Mode.OVER)
            return replace(session, mode=session.was if between else session.mode, words_due=None)
        case _:
            return None


def _noting(session: Session, waits: bool, at: datetime) -> Session:
    """With the words of the mark that was set last waited for, if it wants any."""
    if not waits:
        return session
    due = at + timedelta(seconds=WORDS_S)
    return replace(session, mode=Mode.NOTING, was=session.mode, words_due=due)


def _noted(session: Session) -> Session:
    """No longer waiting for words."""
    back = session.was if session.mode is Mode.NOTING else session.mode
    return replace(session, mode=back, words_due=None)


def _changed(session: Session, change: Callable[[Run], Run]) -> Session:
    *before, run = session.runs
    return replace(session, runs=(*before, change(run)))


def _mark_changed(session: Session, number: int, change: Callable[[Mark], Mark]) -> Session:
    def changed(run: Run) -> Run:
        return replace(run, marks=tuple(change(one) if one.number == number else one for one in run.marks))

    return _changed(session, changed)


def _without(marks: tuple[Mark, ...], number: int) -> tuple[Mark, ...]:
    return tuple(one for one in marks if one.number != number)
