"""The points of a practice run as rules to be read, each with why not all were given."""

from __future__ import annotations

from collections.abc import Sequence

from handsfree.care.practice.scoring import Part, Points
from handsfree.care.practice.session import Practice
from handsfree.care.practice.standards import standards
from handsfree.say.wording_practice import named, what_failed
from handsfree.say.wording_written import practice_score
from handsfree.show.debrief.score import Rule, Score
from handsfree.show.debrief.titles import title
from handsfree.words import worded


def score(all_points: Sequence[Points], session: Practice) -> Score:
    """The score of a run: steps of a part of the checklist as one rule, every other rule and fault alone."""
    steps = [one for one in all_points if one.part is Part.STEP]
    rules = [_of_steps(phase.name, phase.title, steps, session) for phase in session.checklist.phases]
    alone = [_alone(one, session) for one in all_points if one.part is not Part.STEP]
    remark = practice_score(session.checklist.file, session.checklist.assessment.prompted_percent)
    return Score((*(rule for rule in rules if rule.of), *alone), remark)


def _of_steps(phase: str, heading: str, steps: Sequence[Points], session: Practice) -> Rule:
    own = [one for one in steps if session.checklist.step(one.name).phase == phase]
    less = [named(one.name) for one in own if one.got < one.of]
    got, of = sum(one.got for one in own), sum(one.of for one in own)
    return Rule(worded("Steps: {phase}", phase=heading), float(got), float(of), ", ".join(less))


def _alone(one: Points, session: Practice) -> Rule:
    because = what_failed(one.failure, session) if one.failure else ""
    at_s = (one.at - session.started).total_seconds() if one.at else None
    return Rule(_text(one, session), float(one.got), float(one.of), because, at_s)


def _text(one: Points, session: Practice) -> str:
    checklist = session.checklist
    fault = checklist.fault_to_meet(one.name)
    if one.part is Part.FAULT and fault is not None:
        return f"{fault.tell} {fault.right}"
    rule = next(each for each in standards(checklist) if each.name == one.name)
    if rule.step:
        before = ", ".join(map(named, rule.after))
        first = worded("Not before: {steps}.", steps=before)
        return f"{title(checklist, rule.step)} {first} {rule.why}".strip()
    bounds = (
        worded("at least {seconds} s", seconds=rule.at_least_s) if rule.at_least_s else "",
        worded("at most {seconds} s", seconds=rule.at_most_s) if rule.at_most_s else "",
        worded("without {steps}", steps=", ".join(map(named, rule.never))) if rule.never else "",
    )
    return f"{named(rule.name)}: {', '.join(filter(None, bounds))}. {rule.why}".strip()
