"""What is written on the board in a drill and in practice: nothing that a trainee must not hear. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.care.drill.rules import Mode as DrillMode
from handsfree.care.drill.session import Session
from handsfree.care.practice.plain import to_do
from handsfree.care.practice.rules import Mode
from handsfree.care.practice.session import Practice
from handsfree.care.practice.terms import Level
from handsfree.glance import Glance, Running
from handsfree.words import worded

Examples = Mapping[str, str]

_DRILL: Mapping[DrillMode, tuple[str, tuple[str, ...]]] = MappingProxyType(
    {
        DrillMode.READY: (worded("Ready."), (worded("go"),)),
        DrillMode.RUNNING: (worded("The drill runs."), ()),
        DrillMode.NOTING: (worded("Listening."), ()),
        DrillMode.AFTER: (worded("The run is over."), (worded("next trainee"), worded("end session"))),
        DrillMode.ENDING: (worded("End the session?"), (worded("yes end it"), worded("wrong"))),
        DrillMode.OVER: (worded("Session ended."), ()),
    }
)
"""By mode: what is shown, and what can be said then. No mark and no count of marks is on it."""


def drill_glance(session: Session, _: Examples) -> Glance:
    """Who is watched, and how long the run takes."""
    do, say = _DRILL[session.mode]
    run = session.run
    running = run is not None and run.ended is None and session.mode is not DrillMode.OVER
    return Glance(
        title=worded("Drill: {title}", title=session.checklist.title),
        place=session.trainee,
        do=do,
        say=say,
        clocks=(Running(worded("This run"), run.began),) if run is not None and running else (),
        hears=not session.over,
    )


def practice_glance(session: Practice, _: Examples) -> Glance:
    """Who practises, and for how long; on the guided level the next step too."""
    do, say = _asked(session)
    return Glance(
        title=worded("Practice: {title}", title=session.checklist.title),
        place=session.terms.trainee,
        do=do,
        say=say,
        clocks=() if session.over else (Running(worded("This run"), session.started),),
        hears=not session.over,
    )


def _asked(session: Practice) -> tuple[str, tuple[str, ...]]:
    match session.mode:
        case Mode.ENDING:
            return worded("End the practice?"), (worded("yes end it"), worded("wrong"))
        case Mode.OVER:
            return worded("Session ended."), ()
        case Mode.TALKING if session.terms.level is Level.GUIDED:
            sheet = session.sheet()
            steps = (one for one in session.checklist.steps if sheet.applies(one))
            ahead = (to_do(one.do) for one in steps if one.name not in sheet.done)
            return next(ahead, worded("Every step is said.")), (worded("cue"),)
        case Mode.TALKING:
            return worded("Talk it through."), (worded("cue"),)
