"""The drip rate in words, and the texts of a checklist with their places filled. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from fractions import Fraction

from handsfree.care import events as e
from handsfree.care.infusion.counting import drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.rounding import POLICY, Rounded
from handsfree.care.session import Mark, Session
from handsfree.say.calendar import clock_words, day_words
from handsfree.say.numbers import spoken, twice
from handsfree.say.quantities import quantity, unit_words
from handsfree.say.wording_values import capital, value_words
from handsfree.words import worded

_ENDS = re.compile(r"(?<=[.?!]) ")

_NAMES = re.compile(r"{(\w+)}")


def rate_sentence(rate: e.RateComputed, say: Callable[[int | Fraction], str] = twice) -> str:
    """The drip rate, the seconds between drops and the 15 s count."""
    return worded(
        "{rate}. One drop every {time}. {drops} in fifteen seconds.",
        rate=capital(drop_rate_words(rate, say)),
        time=seconds_per_drop_words(rate),
        drops=capital(count_15_words(rate)),
    )


def drop_rate_words(rate: e.RateComputed, say: Callable[[int | Fraction], str] = twice) -> str:
    """Drops a minute, rounded once, as they are said."""
    rounded = POLICY.round(rate.drop_rate_per_min, "gtt/min")
    if isinstance(rounded, Rounded):
        return quantity(rounded.value, "gtt/min", say)
    return worded("less than one drop a minute")


def _ordered_rate_words(rate: e.RateComputed) -> str:
    """The rate of the order, rounded once."""
    rounded = POLICY.round(rate.rate_ml_per_h, "mL/h")
    if isinstance(rounded, Rounded):
        return quantity(rounded.value, "mL/h", twice)
    return worded("almost nothing")


def seconds_per_drop_words(rate: e.RateComputed) -> str:
    """Seconds from drop to drop."""
    rounded = POLICY.round(seconds_per_drop(rate.drop_rate_per_min), "s")
    return quantity(rounded.value, "s") if isinstance(rounded, Rounded) else worded("moment")


def count_15_words(rate: e.RateComputed) -> str:
    """Whole drops in a quarter of a minute; two numbers where the rate lies between."""
    low, high = whole_drops(drops_in(Fraction(15), rate.drop_rate_per_min))
    if low == high:
        return worded("{number} drops", number=spoken(low))
    return worded("{low} or {high} drops", low=spoken(low), high=spoken(high))


def filled(text: str, session: Session) -> str:
    """A text of the checklist with its {step} and {drop_rate} places filled."""
    if "{" not in text:
        return text
    at = session.local(max((mark.at for mark in session.marks.values() if mark.at), default=session.started))
    places = _values(session)
    places |= {"date": day_words(at.date()), "time": clock_words(at.time())}
    if session.rate:
        speed = next((places[n] for n in ("order_speed",) if n in places), "")
        places |= {
            "drop_rate": drop_rate_words(session.rate),
            "seconds_per_drop": seconds_per_drop_words(session.rate),
            "count_15": count_15_words(session.rate),
            "volume": quantity(session.rate.volume_ml, "mL"),
            "speed": speed,
            "ordered_rate": _ordered_rate_words(session.rate),
        }
    return " ".join(_told(text, places)).format_map(_Places(places))


def _told(text: str, places: Mapping[str, str]) -> Iterator[str]:
    """The sentences of a text; once a value is said to be open, none of which nothing is known."""
    told_open = False
    for sentence in _ENDS.split(text):
        known = [name in places for name in _NAMES.findall(sentence)]
        if not told_open or any(known) or not known:
            yield sentence
        told_open |= not all(known)


def _values(session: Session) -> dict[str, str]:
    """By name of a step, or else of a kind: the value said last, in this walk or one underneath."""
    said = [
        (mark.at or session.started, name, mark)
        for walk in session.walks[::-1]
        for name, mark in walk.marks.items()
        if mark.kind
    ]
    words = [
        (name, mark.kind, value_words(mark.kind, mark.value)) for _, name, mark in sorted(said, key=_when)
    ]
    return {kind: value for _, kind, value in words} | {name: value for name, _, value in words}


def _when(said: tuple[datetime, str, Mark]) -> datetime:
    return said[0]


class _Places(dict[str, str]):
    """A place without a value is said as open."""

    def __missing__(self, key: str) -> str:
        return worded("{key} open", key=key.replace("_", " "))


_WRITTEN = re.compile(r"(\S+) (mL/h|gtt/min|gtt/mL|mL|min|h)(?=[ .,:])")


def aloud(text: str) -> str:
    """Units as they are spoken, in a sentence that was written."""
    return _WRITTEN.sub(lambda found: f"{found[1]} {unit_words(found[2], many=found[1] != '1')}", text)
