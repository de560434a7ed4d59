"""Why a command that is known is not open now, and what to do: one sentence. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.care.checklist import Checklist
from handsfree.care.rules import OPEN, Mode
from handsfree.care.session import Session

_NO_REMINDER = "No reminder waits for an answer. Ask: what is next."
_NO_BAG = "No bag is running yet: the order and the start come first."
_NO_BEAT = "Nothing ticks now. Say start ticking once the bag hangs."
_NO_QUESTION = "There is no answer to go on from. Ask the whole question."
_NO_CHOICE = "There is nothing to choose from now."

_WHY: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("reminded", "later", "not_needed"), _NO_REMINDER),
        **dict.fromkeys(("level", "bag_asked", "given_asked", "bag_changed", "beat", "count_drops"), _NO_BAG),
        **dict.fromkeys(("beat_off", "faster", "slower"), _NO_BEAT),
        **dict.fromkeys(("follow_up", "use_that"), _NO_QUESTION),
        **dict.fromkeys(("first", "second"), _NO_CHOICE),
        "correct": "Nothing waits to be confirmed.",
        "wrong": "Nothing waits to be confirmed. To take the last change back, say undo.",
        "leave": "No other checklist is open. Say end session to finish.",
        "line": "There is no other line yet. Say new line, and its name.",
        "tubing_changed": "No drip set hangs yet.",
        "override": "Nothing is stopped.",
        "end_it": "Say end session first.",
        "carry_on": "I am not on hold.",
        "listen": "I am listening.",
    }
)
"""By command: why it can be closed while an answer is waited for."""

_NEEDED: Mapping[str, str] = MappingProxyType(
    {"bag": "no bag hangs", "tubing": "no drip set hangs", "flow": "nothing is running"}
)
"""By clock: what is so before it has begun; without any of these, no line is in."""


def why_closed(session: Session, *rules: str) -> str:
    """Why a command makes no sense now. rules: all that it could be; a number could be much."""
    if any(walk.sharp_open for walk in session.walks):
        return "The needle comes first."
    if session.mode is Mode.CONFIRMING:
        return "First say correct, or wrong."
    return next(filter(None, (_why(session, rule) for rule in rules)), _default(session, rules[0]))


def _default(session: Session, rule: str) -> str:
    if rule in OPEN:
        return "That makes no sense now."
    if session.under is not None:
        return f"{session.checklist.title} is open: go on with it, or say cancel the check."
    return "No step waits for that now."


def _why(session: Session, rule: str) -> str:
    other = session.own_checklist.other(rule)
    if other is not None:
        return _not_begun(session, other)
    if session.mode is Mode.STOPPED and OPEN.get(rule) == frozenset({Mode.WALKING}):
        return "This step is stopped. Answer again, or say new order."
    if rule == "line" and session.others:
        return "First answer which arm."
    return _WHY.get(rule, "")


def _not_begun(session: Session, other: Checklist) -> str:
    """Why another checklist cannot begin over the one at hand."""
    needs = other.begin.needs if other.begin else ""
    if other.name in [walk.checklist.name for walk in session.walks]:
        return f"{other.title} is open already."
    if needs and needs not in session.since:
        here = f" at {session.name}" if session.others else ""
        return f"{other.title} has to wait: {_NEEDED.get(needs, 'no line is in')} yet{here}."
    return f"{other.title} has to wait. Finish {session.checklist.title} first, or say cancel the check."
