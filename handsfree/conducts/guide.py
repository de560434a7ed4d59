"""Walks a user through a checklist, step by step."""

from __future__ import annotations

from datetime import datetime

from handsfree.care import events as e
from handsfree.care.ahead import ahead
from handsfree.care.checklist import Checklist
from handsfree.care.decide import begin, decide, resume
from handsfree.care.evolution import evolve
from handsfree.care.listening import listen
from handsfree.care.rules import SURE
from handsfree.care.session import Session
from handsfree.care.vocabulary import vocabulary
from handsfree.conducts.conduct import Conduct
from handsfree.say.wording import sentence


def _new(checklist: Checklist, started: e.SessionStarted, at: datetime) -> Session:
    return Session(checklist, at, started.utc_offset_min, started.reads_back)


GUIDE = Conduct(
    vocabulary, _new, begin, resume, decide, evolve, listen=listen, ahead=ahead, sentence=sentence, sure=SURE
)
