"""Listens to a trainee who talks a checklist through, and marks the run."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.practice.decide import begin, decide, resume
from handsfree.care.practice.listening import listen
from handsfree.care.practice.rules import SURE, Mode
from handsfree.care.practice.session import Practice, evolve
from handsfree.care.practice.terms import Terms
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.care.vocabulary import Vocabulary
from handsfree.conducts.conduct import Conduct
from handsfree.say.wording_glance_runs import practice_glance
from handsfree.say.wording_practice import practice_sentence
from handsfree.signals import Keeps, Listen


def _new(checklist: Checklist, started: e.SessionStarted, at: datetime) -> Practice:
    terms, loose = started.terms or Terms(), started.ear != "sphinx"
    keeps = Keeps.ALL if started.sound else Keeps.NOTHING
    return Practice(checklist, at, started.utc_offset_min, terms, loose, keeps)


def _ahead(session: Practice, called: bool) -> Iterable[Listen]:
    """The whole talk is open already."""
    return () if session.mode is Mode.OVER else (listen(session, called),)


def _vocabulary(session: Practice) -> Vocabulary:
    return practice_vocabulary(session.checklist)


PRACTICE = Conduct(
    vocabulary=_vocabulary,
    new=_new,
    begin=begin,
    resume=resume,
    decide=decide,
    evolve=evolve,
    listen=listen,
    ahead=_ahead,
    sentence=practice_sentence,
    sure=SURE,
    glance=practice_glance,
)
