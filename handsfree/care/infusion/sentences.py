"""What is said about a flow that was worked out."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from handsfree.care.infusion.answer import Found, Say
from handsfree.care.infusion.counting import drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.rounding import POLICY, Rounded, duration
from handsfree.words import worded

QUICK_COUNT_S = Fraction(15)


def say_found(found: Iterable[Found], say: Say) -> str:
    """Numbers with their units, one after the other; times in hours and minutes."""
    return ", ".join(
        duration(one.number.exact, say) if one.unit == "min" else say(one.number.value, one.unit)
        for one in found
    )


def to_count(drop_rate_per_min: Fraction, say: Say) -> str:
    """The beat, where it can be told, and how many drops a quick count shows, where it shows any."""
    parts = []
    beat = POLICY.round(seconds_per_drop(drop_rate_per_min), "s")
    if isinstance(beat, Rounded):
        parts.append(worded("one drop every {time}", time=say(beat.value, "s")))
    bounds = whole_drops(drops_in(QUICK_COUNT_S, drop_rate_per_min))
    if bounds[0]:
        counts = worded(" or ").join(say(Fraction(drops), "gtt") for drops in sorted(set(bounds)))
        parts.append(worded("{counts} in {time}", counts=counts, time=say(QUICK_COUNT_S, "s")))
    return ", ".join(parts)
