"""Walks a user through a checklist, step by step."""

from __future__ import annotations

from datetime import datetime

from handsfree.care import events as e
from handsfree.care.ahead import ahead
from handsfree.care.checklist import Checklist
from handsfree.care.decide import begin, decide, resume
from handsfree.care.flow_by_ear import heard_beat
from handsfree.care.lines import evolve_lines
from handsfree.care.listening import listen
from handsfree.care.rules import SURE
from handsfree.care.session import Session
from handsfree.care.vocabulary import Vocabulary, vocabulary
from handsfree.conducts.conduct import Conduct
from handsfree.say.wording import sentence
from handsfree.say.wording_glance import glance
from handsfree.signals import Keeps


def _new(checklist: Checklist, started: e.SessionStarted, at: datetime) -> Session:
    keeps = Keeps.ALL if started.sound else Keeps.WORDS
    return Session(checklist, at, started.utc_offset_min, started.reads_back, keeps=keeps)


def _vocabulary(session: Session) -> Vocabulary:
    return vocabulary(session.own_checklist)


GUIDE = Conduct(
    vocabulary=_vocabulary,
    new=_new,
    begin=begin,
    resume=resume,
    decide=decide,
    evolve=evolve_lines,
    listen=listen,
    ahead=ahead,
    sentence=sentence,
    sure=SURE,
    glance=glance,
    beat=heard_beat,
)
