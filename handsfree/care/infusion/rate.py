"""One question about a flow: what volume, time, rate, drops and the clock tell of each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.answer import ANYBODY, Answer, Found, Say, Terms
from handsfree.care.infusion.besides import tell_bags, tell_drops
from handsfree.care.infusion.catch_up import Behind, catch_up
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.drugs import instead, no_drip
from handsfree.care.infusion.flow import NOTHING, UNITS, Flow, solve, way_to
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.limits import above_free_flow, beyond
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.infusion.sentences import say_found, to_count
from handsfree.care.infusion.sheet import Sheet
from handsfree.care.infusion.span import UNTIMED, WRITTEN_MIN, Span
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class RateQuestion:
    """What is known, and by how much each of it may be off as it was written.

    count: drops that were counted, in place of `drop_rate_per_min` or to be compared with it.
    span: when it starts and ends. behind: what is in already, to catch up. gauge: of the cannula.
    name: of fluid or drug, where it was told.
    """

    known: Flow
    half_steps: Flow = NOTHING
    count: Count | None = None
    span: Span = UNTIMED
    behind: Behind | None = None
    gauge: int | None = None
    name: str = ""
    terms: Terms = ANYBODY


def rate_answer(question: RateQuestion, say: Say) -> Answer | Refused:
    """All that follows: each quantity with its working, the sentence to say, method and cautions.

    Refused where nothing follows, or values contradict each other, are impossible or vanish in rounding.
    """
    counted = _with_count(question)
    if isinstance(counted, Refused):
        return counted
    given = _with_span(counted)
    if isinstance(given, Refused):
        return given
    flow = _solved(given)
    if isinstance(flow, Refused):
        return flow
    times = given.span.times(flow.time_min)
    if isinstance(times, Refused):
        return times
    sheet = Sheet(question.terms, given.known.measures())
    sheet.judge(beyond(flow, question.terms.patient, question.terms.local))
    _fill(sheet, question, given)
    if question.behind:
        catch_up(sheet, question.behind)
    asked = tuple(sheet.found)
    _caution(sheet, question)
    tell_drops(sheet)
    tell_bags(sheet)
    return sheet.close(lambda found: _says([found[name] for name in asked], sheet.known, say), times)


def _with_count(question: RateQuestion) -> RateQuestion | Refused:
    """The question with the drops a minute that the count stands for, good to one drop."""
    count, told = question.count, question.known.drop_rate_per_min
    if count is None:
        return question
    if count.drops <= 0 or count.over_s <= 0:
        return Refused(worded("A count is of drops over a time, both more than zero."))
    half_step = question.half_steps.drop_rate_per_min or Fraction(0)
    if told is None:
        return replace(
            question,
            known=replace(question.known, drop_rate_per_min=count.drop_rate_per_min),
            half_steps=replace(question.half_steps, drop_rate_per_min=count.one_drop_per_min),
        )
    if abs(told - count.drop_rate_per_min) > count.one_drop_per_min + half_step:
        counted = POLICY.write(count.drop_rate_per_min, "gtt/min")
        given = POLICY.write(told, "gtt/min")
        wrong = worded("{given} was given, but the count makes {counted}.", given=given, counted=counted)
        return Refused(wrong)
    return question


def _with_span(question: RateQuestion) -> RateQuestion | Refused:
    """The question with the time from start to end, where nothing else tells the time."""
    known = question.known.known()
    length_min = question.span.length_min()
    if isinstance(length_min, Refused):
        return length_min
    if length_min is None or "time" in known or way_to("time", known):
        return question
    return replace(
        question,
        known=replace(question.known, time_min=length_min),
        half_steps=replace(question.half_steps, time_min=WRITTEN_MIN),
    )


def _solved(question: RateQuestion) -> Flow | Refused:
    """The flow; drops alone, and a time alone between two times of day, are enough for a part of it."""
    known = question.known
    spanned = question.span.length_min() is not None
    alone = [known.drop_rate_per_min, known.time_min if spanned else None]
    is_part = len(known.known()) == 1 and any(value is not None and value > 0 for value in alone)
    return known if is_part else solve(known, question.half_steps)


def _fill(sheet: Sheet, question: RateQuestion, given: RateQuestion) -> None:
    """Every quantity that was not told, by the formula that gives it."""
    told, known = question.known.known(), given.known.known()
    for name, unit in UNITS.items():
        way = way_to(name, known)
        if name in told:
            continue
        if name == "drop rate" and question.count:
            sheet.known |= question.count.measures()
            sheet.work_out(formulas.COUNTED, unit)
        elif name in known:
            sheet.known["time from start to end"] = sheet.known[name]
            sheet.work_out(formulas.SPAN, unit)
        elif way:
            sheet.work_out(way, unit)


def _caution(sheet: Sheet, question: RateQuestion) -> None:
    """What runs, by what cannula, and how well it was counted."""
    known = sheet.known
    if "drop rate" in known:
        sheet.refuse(no_drip(question.name))
    sheet.caution(instead(question.name))
    if question.gauge and "rate" in known:
        fast = above_free_flow(known["rate"].value, question.gauge)
        sheet.judge([fast] if fast else [])
    if question.count:
        factor = known.get("drop factor")
        sheet.caution(_count_caution(question.count, factor.value if factor else None))


def _count_caution(count: Count, drop_factor_per_ml: Fraction | None) -> str:
    rate = POLICY.write(count.one_drop_per_min, "gtt/min")
    if drop_factor_per_ml is not None:
        rate = POLICY.write(count.one_drop_ml_per_h(drop_factor_per_ml), "mL/h")
    return worded("One drop more or less is {rate}.", rate=rate)


def _says(asked: Sequence[Found], known: Mapping[str, Measure], say: Say) -> str:
    """What was asked, what catches up, and what to count."""
    ordered = [one for one in asked if one.name in UNITS]
    left = [one for one in asked if one.name not in UNITS]
    drops = known.get("drop rate")
    sentences = [
        say_found(ordered, say) if asked or "rate" not in known else worded("the numbers agree"),
        worded("to catch up, {quantities}", quantities=say_found(left, say)) if left else "",
        to_count(drops.value, say) if drops else "",
    ]
    return f"{'; '.join(filter(None, sentences))}."
