"""What is said about a flow that was worked out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from handsfree.care.infusion.counting import drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.flow import UNITS
from handsfree.care.infusion.rounding import POLICY, Rounded, half_up

Say = Callable[[Fraction, str], str]
"""Says a number with its unit: 31 and `gtt/min` give "thirty one drops a minute"."""

QUICK_COUNT_S = Fraction(15)


def flow_sentence(found: Mapping[str, Rounded], drop_rate_per_min: Fraction | None, say: Say) -> str:
    """One sentence: the numbers that were found, named as the fields of a Flow, and what to count."""
    parts = [_found(name, number, say) for name, number in found.items()]
    if drop_rate_per_min is not None:
        parts += _to_count(drop_rate_per_min, say)
    return f"{', '.join(parts)}." if parts else "The numbers agree."


def duration_text(time_min: Fraction) -> str:
    """Hours and minutes as in `6 h 40 min`, rounded half up to the minute."""
    return _duration(time_min, lambda number, unit: f"{number} {unit}")


def _found(name: str, number: Rounded, say: Say) -> str:
    return _duration(number.exact, say) if name == "time_min" else say(number.value, UNITS[name])


def _duration(time_min: Fraction, say: Say) -> str:
    hours, minutes = divmod(half_up(time_min), 60)
    return " ".join(
        say(Fraction(number), unit) for number, unit in ((hours, "h"), (minutes, "min")) if number
    )


def _to_count(drop_rate_per_min: Fraction, say: Say) -> list[str]:
    """The beat, where it can be told, and how many drops a quick count shows, where it shows any."""
    parts = []
    beat = POLICY.round(seconds_per_drop(drop_rate_per_min), "s")
    if isinstance(beat, Rounded):
        parts.append(f"one drop every {say(beat.value, 's')}")
    bounds = whole_drops(drops_in(QUICK_COUNT_S, drop_rate_per_min))
    if bounds[0]:
        counts = " or ".join(say(Fraction(drops), "gtt") for drops in sorted(set(bounds)))
        parts.append(f"{counts} in {say(QUICK_COUNT_S, 's')}")
    return parts
