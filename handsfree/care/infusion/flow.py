"""How volume, time, rate and drops hang together; exact, and in any direction."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from math import prod
from types import MappingProxyType

from handsfree.care.infusion.formula import Formula, Measure
from handsfree.care.infusion.formulas import FLOW
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class Flow:
    """What is known of a gravity infusion; None where it is not known."""

    volume_ml: Fraction | None = None
    time_min: Fraction | None = None
    rate_ml_per_h: Fraction | None = None
    drop_rate_per_min: Fraction | None = None
    drop_factor_per_ml: Fraction | None = None

    def known(self) -> dict[str, Fraction]:
        """Names of the quantities and values of what is known, in order."""
        pairs = ((name, getattr(self, field.name)) for name, field in zip(UNITS, fields(self), strict=True))
        return {name: value for name, value in pairs if value is not None}

    def measures(self) -> dict[str, Measure]:
        """The same with units."""
        return {name: Measure(value, UNITS[name]) for name, value in self.known().items()}


NOTHING = Flow()

UNITS = MappingProxyType(
    {"volume": "mL", "time": "min", "rate": "mL/h", "drop rate": "gtt/min", "drop factor": "gtt/mL"}
)
"""The name of each field of a Flow, in order, and its unit as the trade writes it."""


def flow_of(values: Mapping[str, Fraction]) -> Flow:
    """The flow of which so much is known, by the names of `UNITS`."""
    return Flow(*(values.get(name) for name in UNITS))


def way_to(name: str, known: Mapping[str, object]) -> Formula | None:
    """The formula that gives a quantity from what is known; None where none does."""
    return next((way for way in FLOW if way.gives == name and way.needs <= known.keys()), None)


def solve(known: Flow, half_steps: Flow = NOTHING) -> Flow | Refused:
    """All that follows from what is known; what was known stays as it is.

    half_steps: by how much each known value may be off as it was written (42 gtt/min: one half).
    Refused where a value is not above zero, values contradict each other beyond that, or nothing follows.
    """
    given = known.known()
    wrong = _not_positive(given) or _contradiction(given, half_steps.known())
    if wrong:
        return wrong
    measures = known.measures()
    ways = {name: way_to(name, given) for name in UNITS}
    found = {name: way.work_out(measures) for name, way in ways.items() if way and name not in given}
    flow = flow_of({**found, **given})
    if flow.rate_ml_per_h is None or len(given) < 2:
        return Refused(
            worded("Too little is known: give two of volume, time and rate, or drop rate and drop factor.")
        )
    return flow


def _not_positive(given: Mapping[str, Fraction]) -> Refused | None:
    wrong = (
        Refused(worded("{value} {unit} is not more than zero.", value=value, unit=UNITS[name]))
        for name, value in given.items()
        if value <= 0
    )
    return next(wrong, None)


def _contradiction(given: Mapping[str, Fraction], half_steps: Mapping[str, Fraction]) -> Refused | None:
    slack = {name: half_steps.get(name, Fraction(0)) for name in given}
    low = {name: Measure(max(Fraction(0), given[name] - slack[name]), UNITS[name]) for name in given}
    high = {name: Measure(given[name] + slack[name], UNITS[name]) for name in given}
    for law in FLOW:
        names = {law.gives, *law.needs}
        if names <= given.keys() and not _holds(law, low, high):
            *values, last = (POLICY.write(given[name], UNITS[name]) for name in UNITS if name in names)
            return Refused(
                worded(
                    "{values} and {last} do not fit together. Check each against the order.",
                    values=", ".join(values),
                    last=last,
                )
            )
    return None


def _holds(law: Formula, low: Mapping[str, Measure], high: Mapping[str, Measure]) -> bool:
    """Whether a law can be true of some values between low and high: divisors stand on the other side."""
    left_low, right_low = _sides(law, low)
    left_high, right_high = _sides(law, high)
    return left_low <= right_high and right_low <= left_high


def _sides(law: Formula, values: Mapping[str, Measure]) -> tuple[Fraction, Fraction]:
    (term,) = law.terms
    left = prod(factor.measure(values).value for factor in term.factors if factor.divides)
    right = prod(factor.measure(values).value for factor in term.factors if not factor.divides)
    return values[law.gives].value * left, Fraction(right)
