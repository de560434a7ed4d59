"""The flow by ear: a beat for the eye at the drip chamber, and a span of time in which drops are counted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, assert_never

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Answer, Say

if TYPE_CHECKING:
    from handsfree.care.decision import Decision
    from handsfree.care.session import Session

NUDGE = Fraction(1, 20)
"""By so much of what is wanted the beat becomes faster or slower: one drop of twenty can just be told apart
by ear (common practice, no source)."""

ANSWER_S = 60
"""So long after a count "how many" is waited for."""


@dataclass(frozen=True, slots=True)
class Window:
    """Drops are being counted for `over_s` seconds, from when that was said to its end.

    due: when the count ends, then when its answer is no longer waited for; None before it has begun.
    """

    over_s: int
    due: datetime | None = None
    over: bool = False


def heard_beat(session: Session) -> Fraction | None:
    """Drops a minute that tick now; None for silence: of the program, or of somebody who counts."""
    quiet = session.over or session.held or (session.window is not None and not session.window.over)
    return None if quiet else session.beat


FlowEvent = e.BeatSet | e.BeatStopped | e.CountBegun | e.CountEnded | e.CountDropped | e.EmergencyRaised


def flowed(session: Session, event: FlowEvent, at: datetime) -> Session:
    """How events change beat and count; an emergency ends both."""
    match event:
        case e.BeatSet(drops_per_min):
            return replace(session, beat=drops_per_min)
        case e.BeatStopped():
            return replace(session, beat=None)
        case e.CountBegun(over_s):
            return replace(session, window=Window(over_s))
        case e.CountEnded(over_s):
            return replace(session, window=Window(over_s, at + timedelta(seconds=ANSWER_S), over=True))
        case e.CountDropped():
            return replace(session, window=None)
        case e.EmergencyRaised():
            return replace(session, beat=None, window=None)
        case _:
            assert_never(event)


def begun_when_said(window: Window, at: datetime) -> Window:
    """The window after something was said to its end: the count begins with "now"."""
    return window if window.due else replace(window, due=at + timedelta(seconds=window.over_s))


def tick_of_count(decision: Decision) -> None:
    """The time of the count is over, or that of its answer."""
    window = decision.session.window
    if window is None or window.due is None or window.due > decision.at:
        return
    decision.add(e.CountDropped("lapsed") if window.over else e.CountEnded(window.over_s))


def _beat(decision: Decision, _: Say) -> None:
    """Tick at the rate of the order."""
    rate = decision.session.rate
    if rate is None:
        decision.add(e.CommandRefused(refusals.NO_RATE))
    else:
        decision.add(e.BeatSet(rate.drop_rate_per_min))


def _nudged(by: Fraction) -> Callable[[Decision, Say], None]:
    """Faster or slower than it ticks; one drop a minute at least."""

    def nudge(decision: Decision, _: Say) -> None:
        beat, rate = decision.session.beat, decision.session.rate
        if beat is None or rate is None:
            decision.add(e.CommandRefused(refusals.NOTHING_TICKS))
        else:
            decision.add(e.BeatSet(max(beat + by * rate.drop_rate_per_min, Fraction(1))))

    return nudge


def _quiet(decision: Decision, _: Say) -> None:
    decision.add(e.BeatStopped())


def _count(decision: Decision, said: Say) -> None:
    decision.add(e.CountBegun(int(said.reason)))


def _drops(decision: Decision, said: Say) -> None:
    """The number that was counted in the window, as if both had been said."""
    from handsfree.care.answers import report
    from handsfree.care.path import target

    window = decision.session.window
    assert window is not None
    decision.add(e.CountDropped("told"))
    if target(decision.session, "count") is not None:
        report(decision, (Answer("count", f"{said.reason}/{window.over_s}", said.text),))
    elif decision.session.rate is not None:
        wanted = decision.session.rate.drop_rate_per_min
        decision.add(e.FlowCounted(Fraction(said.reason), Fraction(window.over_s), wanted))


FLOW_COMMANDS: Mapping[str, Callable[[Decision, Say], None]] = MappingProxyType(
    {
        "beat": _beat,
        "faster": _nudged(NUDGE),
        "slower": _nudged(-NUDGE),
        "beat_off": _quiet,
        "count_drops": _count,
        "just_drops": _drops,
    }
)
