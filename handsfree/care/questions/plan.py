"""Questions and the plan: what of it a question takes, and what of an answer the plan can take."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from handsfree.care.infusion.answer import Answer, Say, Terms
from handsfree.care.infusion.burn import FIRST_MIN
from handsfree.care.infusion.patient import Patient
from handsfree.care.order import known_flow
from handsfree.care.questions.question import Question, Subject
from handsfree.care.questions.working import Asker
from handsfree.care.session import Session

_ON_THE_SET = (Subject.COUNT, Subject.CATCH_UP, Subject.BEAT)
"""What is about drops: the set that was confirmed is the one that is meant, unless another is named."""


def with_plan(question: Question, session: Session) -> Question:
    """The question with the set of the plan, where it is about drops and names none."""
    factor = known_flow(session).drop_factor_per_ml
    drops = question.subject in _ON_THE_SET or question.wants == "drop rate"
    told = question.told
    if factor is None or not drops or "drop factor" in told or "drop rate" in told:
        return question
    return replace(question, told={**told, "drop factor": f"{factor} gtt/mL"})


def asker(question: Question, session: Session, say: Say) -> Asker:
    """For whom it is asked: as the question says, else as was said of the patient before."""
    kind = question.named("patient")
    terms = Terms(Patient(kind) if kind else session.patient, local=session.limits)
    return Asker(terms, say, session.rate.rate_ml_per_h if session.rate else None)


_RATES: Mapping[Subject, tuple[str, ...]] = MappingProxyType(
    {
        Subject.FLOW: ("rate",),
        Subject.BAGS: ("rate",),
        Subject.BEAT: ("rate",),
        Subject.CATCH_UP: ("rate",),
        Subject.DOSE: ("rate",),
        Subject.MAINTENANCE: ("rate",),
        Subject.DEFICIT: ("rate",),
        Subject.BURN: ("rate", "first 8 h rate"),
        Subject.BOLUS: ("rate",),
    }
)
"""By subject, the rate that can be used; others have none."""

_VOLUMES = (Subject.FLOW, Subject.BOLUS)
"""What has a volume that is a bag, or a part of one, to be run."""


def for_plan(question: Question, answer: Answer) -> dict[str, str]:
    """By kind of value, what an answer proposes for the plan: as it was told, else as it was said."""
    found = {one.name: one.number.value for one in answer.found}
    values: dict[str, Fraction | None] = {}
    if question.subject in _VOLUMES:
        values["volume"] = question.value("volume") or found.get("volume")
    names = _RATES.get(question.subject, ())
    if question.subject is Subject.BURN and (question.value("since") or 0) >= FIRST_MIN:
        names = (*names, "next 16 h rate")
    if question.subject in _VOLUMES and question.value("time"):
        values["infusion_time"] = question.value("time")
    elif names:
        values["rate"] = question.value("rate") or next((found[one] for one in names if one in found), None)
    if names:
        values["drop_factor"] = question.value("drop factor")
    return {kind: str(value) for kind, value in values.items() if value is not None}
