"""What is said of the flow by ear: the beat, the count, and how far off the flow is. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.rounding import POLICY, Rounded
from handsfree.care.session import Session
from handsfree.say.numbers import spoken
from handsfree.say.quantities import duration, quantity
from handsfree.say.wording_places import drop_rate_words
from handsfree.say.wording_values import capital
from handsfree.words import worded


def _beat(event: e.BeatSet, session: Session, _: object) -> str:
    """What ticks, and how far that is from what is wanted."""
    wanted = session.rate.drop_rate_per_min if session.rate else event.drops_per_min
    return f"{capital(_per_min(event.drops_per_min))}, {_off(event.drops_per_min, wanted)}."


def _counted(event: e.FlowCounted, session: Session, _: object) -> str:
    """What was counted, what one drop more or less would make of it, and what to do at the clamp."""
    count = Count(int(event.drops), event.over_s)
    wanted = drop_rate_words(session.rate) if session.rate else ""
    said = worded(
        "That is {rate}, {off}; one drop more or less is {drop} a minute. Wanted: {wanted}.",
        rate=_per_min(count.drop_rate_per_min),
        off=_off(count.drop_rate_per_min, event.wanted_per_min),
        drop=_whole(count.one_drop_per_min),
        wanted=wanted,
    )
    if count.drop_rate_per_min > event.wanted_per_min:
        turn = worded("Too fast: close the clamp a little, and count again.")
    else:
        turn = worded("Too slow: open the clamp a little, and count again.")
    return f"{said} {turn}"


def _per_min(drops_per_min: Fraction) -> str:
    rounded = POLICY.round(drops_per_min, "gtt/min")
    return quantity(rounded.value, "gtt/min") if isinstance(rounded, Rounded) else worded("almost nothing")


def _off(drops_per_min: Fraction, wanted_per_min: Fraction) -> str:
    """By how many hundredths it is off, whole ones."""
    hundredths = (drops_per_min / wanted_per_min - 1) * 100
    if abs(hundredths) < Fraction(1, 2):
        return worded("as wanted")
    percent = _whole(abs(hundredths))
    if hundredths > 0:
        return worded("{percent} percent too fast", percent=percent)
    return worded("{percent} percent too slow", percent=percent)


def _whole(number: Fraction) -> str:
    """Half up."""
    return spoken(int(number + Fraction(1, 2)))


FLOW_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.FlowCounted: _counted,
        e.BeatSet: _beat,
        e.BeatStopped: lambda event, session, _: worded("The beat is off."),
        e.CountBegun: lambda event, session, _: worded(
            "Count for {time}, from: now.", time=duration(event.over_s)
        ),
        e.CountEnded: lambda event, session, _: worded("Stop. How many drops?"),
    }
)
"""What each kind of event about the flow says; those not named here say nothing."""
