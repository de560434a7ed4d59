"""Drills on the shipped checklist, in few words."""

from __future__ import annotations

from datetime import timedelta
from functools import cache
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.drill.session import Run, Session
from handsfree.care.drill.vocabulary import vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.record import CODEC
from handsfree.shelf import checklist_from
from handsfree.testing.dialogue import SESSION, START, Talk, talk
from handsfree.wiring import read_shipped, sounds

TRAINEES = ("Anna", "Ben", "Mike")


@cache
def lexicon(checklist: str = "peripheral_iv") -> Lexicon:
    session = Session(checklist_from(checklist), START, trainees=TRAINEES)
    return Lexicon(vocabulary(session), read_shipped, knows_all, sounds())


def shipped() -> Checklist:
    return checklist_from("peripheral_iv")


def drilled(*script: str, **begun: Any) -> Talk:
    """Run a drill that keeps its sound, Anna, Ben and Mike being there."""
    return talk(script, shipped(), lexicon(), kind="drill", trainees=TRAINEES, **{"sound": True, **begun})


def marks(run: Run) -> list[str]:
    """Marks in short: seconds from the go, step, kind, and the words that belong to it."""
    return [
        " ".join(
            filter(None, (f"{(m.at - run.began) / timedelta(seconds=1):g}", m.step, m.kind.value, m.text))
        )
        for m in run.marks
    ]


def events(talk: Talk) -> list[e.Recorded]:
    """What was kept."""
    from handsfree.keep.fields import read_time

    return [e.Recorded(read_time(row.at), CODEC.decode(row)) for row in talk.journal.read(SESSION)]
