"""Records a drill: an instructor marks by voice what a trainee does."""

from __future__ import annotations

from datetime import datetime

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.drill.decide import begin, decide, resume
from handsfree.care.drill.evolution import evolve
from handsfree.care.drill.listening import ahead, listen
from handsfree.care.drill.rules import SURE
from handsfree.care.drill.session import Session
from handsfree.care.drill.vocabulary import vocabulary
from handsfree.conducts.conduct import Conduct
from handsfree.say.wording_drill import chime, sentence
from handsfree.say.wording_glance_runs import drill_glance
from handsfree.signals import Keeps


def _new(checklist: Checklist, started: e.SessionStarted, at: datetime) -> Session:
    keeps = Keeps.ALL if started.sound else Keeps.NOTHING
    return Session(checklist, at, started.utc_offset_min, started.trainees, keeps)


DRILL = Conduct(
    vocabulary=vocabulary,
    new=_new,
    begin=begin,
    resume=resume,
    decide=decide,
    evolve=evolve,
    listen=listen,
    ahead=ahead,
    sentence=sentence,
    chime=chime,
    sure=SURE,
    glance=drill_glance,
)
