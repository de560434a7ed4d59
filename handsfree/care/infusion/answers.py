"""The answer to one question about a gravity infusion, as an object of JSON values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, time
from fractions import Fraction
from types import MappingProxyType

from handsfree.care.infusion.counting import Count, seconds_per_drop
from handsfree.care.infusion.flow import NOTHING, UNITS, Flow, finish, solve
from handsfree.care.infusion.formulas import BEAT, COUNTING, method
from handsfree.care.infusion.limits import beyond
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY, Rounded, RoundsToZero
from handsfree.care.infusion.sentences import Say, duration_text, flow_sentence

STANDING_CAUTION = "Check every number independently; the order and local protocol decide."

MENTIONED_SHIFT = Fraction(3, 100)
"""A rounding that changes what flows by more is told: a few per cent, local policy."""

_KEYS = MappingProxyType(
    {
        "volume_ml": "volume",
        "time_min": "time",
        "rate_ml_per_h": "rate",
        "drop_rate_per_min": "drop_rate",
        "drop_factor_per_ml": "drop_factor",
    }
)
_ANY_DAY = datetime(2000, 1, 1)


@dataclass(frozen=True, slots=True)
class RateQuestion:
    """What is known, and by how much each of it may be off as it was written.

    count: drops that were counted, in place of `drop_rate_per_min` or to be compared with it.
    start: time of day at which the infusion starts.
    """

    known: Flow
    half_steps: Flow = NOTHING
    count: Count | None = None
    start: time | None = None


def rate_answer(question: RateQuestion, say: Say) -> dict[str, object] | Refused:
    """All that follows: each quantity as exact, rounded and unit, the sentence to say, method and cautions.

    Refused where nothing follows, or values contradict each other, are impossible or vanish in rounding.
    """
    given = _with_count(question)
    if isinstance(given, Refused):
        return given
    flow = _solved(given)
    if isinstance(flow, Refused):
        return flow
    found = _rounded(question.known, flow)
    if isinstance(found, Refused):
        return found
    return {
        **_written(found, flow),
        **_end(question.start, flow),
        "says": flow_sentence(found, flow.drop_rate_per_min, say),
        "method": _method(given, flow),
        "cautions": _cautions(given, flow, found),
    }


def _with_count(question: RateQuestion) -> RateQuestion | Refused:
    """The question with the drops a minute that the count stands for, good to one drop."""
    count, told = question.count, question.known.drop_rate_per_min
    if count is None:
        return question
    if count.drops <= 0 or count.over_s <= 0:
        return Refused("No drop was counted, so no rate follows.")
    half_step = question.half_steps.drop_rate_per_min or Fraction(0)
    if told is None:
        return replace(
            question,
            known=replace(question.known, drop_rate_per_min=count.drop_rate_per_min),
            half_steps=replace(question.half_steps, drop_rate_per_min=count.one_drop_per_min),
        )
    if abs(told - count.drop_rate_per_min) > count.one_drop_per_min + half_step:
        counted = POLICY.write(count.drop_rate_per_min, "gtt/min")
        return Refused(f"{POLICY.write(told, 'gtt/min')} was given, but the count makes {counted}.")
    return question


def _solved(question: RateQuestion) -> Flow | Refused:
    drops = question.known.drop_rate_per_min
    only_drops = drops is not None and drops > 0 and question.known == Flow(drop_rate_per_min=drops)
    flow = question.known if only_drops else solve(question.known, question.half_steps)
    if isinstance(flow, Refused):
        return flow
    return next((Refused(fault.reason) for fault in beyond(flow) if fault.hard), flow)


def _rounded(known: Flow, flow: Flow) -> Mapping[str, Rounded] | Refused:
    """Every field of `flow` that was not known, rounded."""
    found = {}
    for name, exact in flow.known().items():
        if name in known.known():
            continue
        match POLICY.round(exact, UNITS[name]):
            case Rounded() as rounded:
                found[name] = rounded
            case RoundsToZero():
                return Refused(f"{exact} {UNITS[name]} would be rounded to zero: too little to set by drops.")
    return found


def _written(found: Mapping[str, Rounded], flow: Flow) -> dict[str, object]:
    answer: dict[str, object] = {
        _KEYS[name]: _quantity(number, UNITS[name]) for name, number in found.items()
    }
    if "time_min" in found:
        answer["time"] = {
            **_quantity(found["time_min"], "min"),
            "text": duration_text(found["time_min"].exact),
        }
    if flow.drop_rate_per_min is not None:
        beat = POLICY.round(seconds_per_drop(flow.drop_rate_per_min), "s")
        if isinstance(beat, Rounded):
            answer["seconds_per_drop"] = _quantity(beat, "s")
    return answer


def _quantity(number: Rounded, unit: str) -> dict[str, str]:
    return {"exact": str(number.exact), "rounded": number.text, "unit": unit}


def _end(start: time | None, flow: Flow) -> dict[str, object]:
    if start is None or flow.time_min is None:
        return {}
    end = finish(datetime.combine(_ANY_DAY, start), flow.time_min)
    return {"ends_at": f"{end:%H:%M}", "ends_day": (end.date() - _ANY_DAY.date()).days}


def _method(given: RateQuestion, flow: Flow) -> str:
    counting = [COUNTING] if given.count else []
    beat = [BEAT] if flow.drop_rate_per_min else []
    return "; ".join([*counting, *method(given.known, flow), *beat])


def _cautions(given: RateQuestion, flow: Flow, found: Mapping[str, Rounded]) -> list[str]:
    shifts = [_shift_caution(name, number) for name, number in found.items() if _is_shifted(name, number)]
    count = [] if given.count is None else [_count_caution(given.count, flow.drop_factor_per_ml)]
    return [STANDING_CAUTION, *(fault.reason for fault in beyond(flow)), *shifts, *count]


def _is_shifted(name: str, number: Rounded) -> bool:
    return name != "time_min" and number.shift > MENTIONED_SHIFT


def _shift_caution(name: str, number: Rounded) -> str:
    percent = POLICY.write(number.shift * 100, "%")
    return f"Rounding to {number.text} {UNITS[name]} changes it by {percent}."


def _count_caution(count: Count, drop_factor_per_ml: Fraction | None) -> str:
    if drop_factor_per_ml is None:
        return f"One drop more or less is {POLICY.write(count.one_drop_per_min, 'gtt/min')}."
    return f"One drop more or less is {POLICY.write(count.one_drop_ml_per_h(drop_factor_per_ml), 'mL/h')}."
