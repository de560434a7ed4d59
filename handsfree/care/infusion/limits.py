"""Bounds of what is possible and of what is usual, as data. Impossible is refused, unusual is asked twice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from handsfree.care.infusion import sources as by
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.formula import Measure, plain
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.rounding import POLICY, duration_text
from handsfree.words import worded

_USUAL: Mapping[Patient | None, str] = MappingProxyType(
    {
        None: worded("what is usual"),
        Patient.ADULT: worded("what is usual for an adult"),
        Patient.CHILD: worded("what is usual for a child"),
        Patient.INFANT: worded("what is usual for an infant"),
    }
)


@dataclass(frozen=True, slots=True)
class Limit:
    """Bounds of one quantity, both allowed themselves; None where there is no bound.

    unit: of the bounds. hard: beyond is impossible or forbidden, otherwise only unusual. source: where the
    bounds come from. patient: for whom they hold; None: for everybody.
    """

    quantity: str
    low: Fraction | None
    high: Fraction | None
    unit: str
    source: str
    hard: bool = False
    patient: Patient | None = None

    def holds(self, value: Fraction) -> bool:
        """Whether a value lies within."""
        return (self.low is None or self.low <= value) and (self.high is None or value <= self.high)

    def reason(self, value: Fraction) -> str:
        """Why a value does not: one sentence with the bound."""
        below = self.low is not None and value < self.low
        bound = _written((self.low if below else self.high) or Fraction(0), self.unit)
        told = _written(value, self.unit)
        parts = {
            "told": f"{plain(value)} {self.unit}" if told == bound else told,
            "bound": worded("the limit of {most}", most=bound)
            if self.hard
            else f"{_USUAL[self.patient]}, {bound}",
            "source": self.source,
        }
        if below:
            return worded("{told} is below {bound} ({source}).", **parts)
        return worded("{told} is above {bound} ({source}).", **parts)


def _written(value: Fraction, unit: str) -> str:
    """Number and unit; a long time in hours."""
    return duration_text(value) if unit == "min" and value >= 120 else POLICY.write(value, unit)


@dataclass(frozen=True, slots=True)
class Beyond:
    """A number outside a limit. hard: impossible, otherwise unusual. reason: one sentence."""

    quantity: str
    hard: bool
    reason: str


FREE_FLOW_ML_PER_MIN = MappingProxyType(
    {
        14: Fraction(2000, 7),
        16: Fraction(500, 3),
        18: Fraction(100),
        20: Fraction(200, 3),
        22: Fraction(500, 11),
    }
)
"""By gauge: a litre of saline in 3.5, 6, 10, 15 and 22 minutes of ideal gravity (emergency department
handbook, IV cannula page, South Australia). A ceiling; it does not tell what will flow."""

USUAL_DROP_FACTORS = frozenset(Fraction(drops) for drops in (10, 12, 15, 20, 21, 60))
"""10, 15, 20 and 60: Math for Nursing, flow-rate help sheet (college mathematics learning center, 2000).
12 and 21: met in short published questions and answers."""


def _limit(quantity: str, bounds: str, source: str, *, patient: Patient | None = None) -> Limit:
    """A limit from how it is written: "1 to 3000 mL", "to 20 %", "hard 1 to 100 gtt/mL"."""
    hard = bounds.startswith("hard ")
    low, _, rest = bounds.removeprefix("hard ").rpartition("to ")
    high, _, unit = rest.partition(" ")
    return Limit(
        quantity,
        Fraction(low) if low else None,
        Fraction(high) if high != "any" else None,
        unit,
        source,
        hard,
        patient,
    )


_FREE_FLOW = f"hard 0.1 to {FREE_FLOW_ML_PER_MIN[14] * 60} mL/h"

LIMITS = (
    _limit("volume", "hard 1 to 20000 mL", by.LOCAL),
    _limit("volume", "10 to 3000 mL", by.LOCAL),
    _limit("time", "hard 1 to 10080 min", by.LOCAL),
    _limit("time", "10 to 1440 min", by.LOCAL),
    _limit("rate", _FREE_FLOW, by.MOST_AND_LEAST),
    _limit("rate", "0.1 to 100 mL/h", by.LOCAL, patient=Patient.INFANT),
    _limit("rate", "1 to 250 mL/h", by.LOCAL, patient=Patient.CHILD),
    _limit("rate", "10 to 1000 mL/h", by.LOCAL),
    _limit("drop factor", "hard 1 to 100 gtt/mL", by.LOCAL),
    _limit("drop rate", "1 to 200 gtt/min", by.BY_EYE),
    _limit("weight", "hard 0.3 to 400 kg", by.LOCAL),
    _limit("weight", "35 to 200 kg", by.LOCAL, patient=Patient.ADULT),
    _limit("weight", "3 to 80 kg", by.LOCAL, patient=Patient.CHILD),
    _limit("weight", "1 to 15 kg", by.LOCAL, patient=Patient.INFANT),
    _limit("maintenance weight", "3.5 to any kg", by.NO_NEWBORNS),
    _limit("maintenance rate", "to 100 mL/h", by.FLUID_PAGE),
    _limit("maintenance volume", "to 2400 mL", by.FLUID_PAGE),
    _limit("replacement time", "hard 1 to 10080 min", by.LOCAL),
    _limit("dehydration", "hard to 20 %", by.LOCAL),
    _limit("dehydration", "to 10 %", by.LOCAL),
    _limit("volume per kg", "hard to 60 mL/kg", by.SEPSIS_REVIEW),
    _limit("volume per kg", "5 to 20 mL/kg", by.SEPSIS_PATHWAY, patient=Patient.INFANT),
    _limit("volume per kg", "5 to 20 mL/kg", by.SEPSIS_PATHWAY, patient=Patient.CHILD),
    _limit("volume per kg", "to 30 mL/kg", by.SEPSIS_CAMPAIGN),
    _limit("burn", "hard to 100 %", by.ARITHMETIC),
    _limit("burn", "15 to any %", by.BURN_UK, patient=Patient.ADULT),
    _limit("burn", "10 to any %", by.BURN_UK, patient=Patient.CHILD),
    _limit("burn", "10 to any %", by.BURN_UK, patient=Patient.INFANT),
    _limit("burn rate", "hard to 2000 mL/h", by.LOCAL),
    _limit("burn rate", "to 1000 mL/h", by.LOCAL),
    _limit("potassium strength", "hard to 40 mEq/L", by.FLUID_BOOK),
    _limit("potassium rate", "hard to 20 mEq/h", by.FLUID_BOOK),
    _limit("potassium rate", "to 10 mEq/h", by.MANY_HOSPITALS),
)
"""For each quantity hard before soft, and a kind of patient before everybody."""


def over(local: Iterable[Limit]) -> tuple[Limit, ...]:
    """All limits, in the order of `LIMITS`; one of local policy takes the place of ours of its kind."""
    kinds = {(one.quantity, one.hard, one.patient): one for one in (*LIMITS, *local)}
    names = list(dict.fromkeys(one.quantity for one in LIMITS))
    by_rank = sorted(kinds.values(), key=lambda one: (not one.hard, one.patient is None))
    return tuple(sorted(by_rank, key=lambda one: names.index(one.quantity)))


def outside(
    values: Mapping[str, Measure], patient: Patient | None = None, local: Iterable[Limit] = ()
) -> tuple[Beyond, ...]:
    """What of some quantities is impossible or unusual, each once, its worst.

    A limit of a kind of patient takes the place of one for everybody. local: limits of local policy.
    """
    found: dict[str, Beyond] = {}
    judged: set[tuple[str, bool]] = set()
    for limit in over(local):
        measure = values.get(limit.quantity)
        if measure is None or limit.patient not in (None, patient) or (limit.quantity, limit.hard) in judged:
            continue
        if not limit.holds(measure.value):
            found.setdefault(limit.quantity, Beyond(limit.quantity, limit.hard, limit.reason(measure.value)))
        if limit.patient:
            judged.add((limit.quantity, limit.hard))
    return tuple(found.values())


def beyond(flow: Flow, patient: Patient | None = None, local: Iterable[Limit] = ()) -> tuple[Beyond, ...]:
    """What of a flow is impossible or unusual, an unusual drop set included."""
    found = outside(flow.measures(), patient, local)
    factor = flow.drop_factor_per_ml
    odd = factor is not None and factor not in USUAL_DROP_FACTORS
    if factor is None or not odd or any(fault.quantity == "drop factor" for fault in found):
        return found
    written = POLICY.write(factor, "gtt/mL")
    reason = worded("{drop_set} is not a usual set: read the number on its pack again.", drop_set=written)
    return (*found, Beyond("drop factor", False, reason))


def above_free_flow(rate_ml_per_h: Fraction, gauge: int) -> Beyond | None:
    """A rate that a cannula of this gauge cannot let through by gravity; None where it may, or is unknown."""
    ceiling_ml_per_min = FREE_FLOW_ML_PER_MIN.get(gauge)
    if ceiling_ml_per_min is None or rate_ml_per_h <= ceiling_ml_per_min * 60:
        return None
    ceiling = POLICY.write(ceiling_ml_per_min * 60, "mL/h")
    asked = POLICY.write(rate_ml_per_h, "mL/h")
    reason = worded(
        "{asked} is more than {gauge} gauge lets through by gravity, at best {ceiling}.",
        asked=asked,
        gauge=gauge,
        ceiling=ceiling,
    )
    return Beyond("rate", False, reason)
