"""The tables of docs/numbers.md, made from what is worked out here: formulas, rounding, limits, refusals."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from handsfree.care.infusion.amounts import AMOUNTS
from handsfree.care.infusion.drugs import NEVER_PUSHED, NO_DRIP
from handsfree.care.infusion.formula import plain
from handsfree.care.infusion.formulas import BURN_VOLUMES, SUBJECTS
from handsfree.care.infusion.limits import FREE_FLOW_ML_PER_MIN, LIMITS, Limit
from handsfree.care.infusion.rounding import GIVEN, PRECISIONS, Precision
from handsfree.care.infusion.sources import CANNULAS, FLUID_BOOK, PRACTICE


def reference() -> str:
    """All tables, in Markdown."""
    return "\n".join(_lines())


def _lines() -> Iterator[str]:
    for subject, formulas in SUBJECTS.items():
        rows = [(one.gives, one.text, one.source) for one in formulas]
        yield from _table(f"Formulas: {subject.lower()}", ("number", "formula", "source"), rows)
    yield from _table("Names of formulas for burns", ("name", "volume of 24 hours"), _burns())
    yield from _table("Rounding", ("unit", "to", "for an infant", "source"), _roundings())
    yield from _table("Amounts of drugs", ("unit", "measures", "in the smallest usual unit"), _amounts())
    yield from _table("Limits", ("number", "for", "least", "most", "kind", "source"), map(_limit, LIMITS))
    yield from _table("Free flow of a cannula", ("gauge", "ceiling", "source"), _free_flows())
    yield from _table("Refused", ("what", "why", "source"), _refusals())


def _table(title: str, head: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    yield from (f"### {title}", "", _row(head), _row(["---"] * len(head)))
    yield from map(_row, rows)
    yield ""


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _burns() -> Iterator[tuple[str, str]]:
    yield from ((f"`{name}`", formula.text) for name, formula in BURN_VOLUMES.items())


def _roundings() -> Iterator[tuple[str, str, str, str]]:
    for unit, precision in PRECISIONS.items():
        yield unit, _step(precision), "down" if unit in GIVEN else "half up", precision.source


def _step(precision: Precision) -> str:
    figures = f", at least {precision.figures} figures" if precision.figures else ""
    return f"{plain(Fraction(1, 10**precision.places))}{figures}"


def _amounts() -> Iterator[tuple[str, str, str]]:
    yield from ((unit, measured, plain(one)) for unit, (measured, one) in AMOUNTS.items())


def _limit(limit: Limit) -> tuple[str, ...]:
    bounds = ["" if bound is None else f"{plain(bound)} {limit.unit}" for bound in (limit.low, limit.high)]
    kind = "hard" if limit.hard else "soft"
    return (limit.quantity, limit.patient or "everybody", *bounds, kind, limit.source)


def _free_flows() -> Iterator[tuple[str, str, str]]:
    for gauge, ml_per_min in FREE_FLOW_ML_PER_MIN.items():
        yield str(gauge), f"{plain(ml_per_min * 60)} mL/h", CANNULAS


def _refusals() -> Iterator[tuple[str, str, str]]:
    yield from ((f"a drip of {kind}", why, PRACTICE) for kind, why in NO_DRIP.items())
    yield "potassium drawn up", NEVER_PUSHED, FLUID_BOOK
