"""What the user says of reminders: answered, put off, not needed; of bag, set and patient; what is next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Say
from handsfree.care.decision import Decision
from handsfree.care.reminders.asked import bag_told, dues
from handsfree.care.reminders.reminder import KINDS, OWN, Reminder

LONGEST_DELAY_MIN = 60
"""A reminder is put off by an hour at most: who wants more says why it is not needed (common practice, no
source)."""

LONGEST_TIMER_MIN = 24 * 60
"""A timer of the user's own runs for a day at most: nobody's shift is longer (common practice, no source)."""


def _remind(decision: Decision, said: Say) -> None:
    """A timer of the user's own: "10/turn the patient"; what no grammar holds is kept as sound."""
    minutes, _, name = said.reason.partition("/")
    after = timedelta(minutes=int(minutes))
    if not timedelta() < after <= timedelta(minutes=LONGEST_TIMER_MIN):
        decision.add(e.CommandRefused(refusals.TIMER_RANGE))
    elif any(one.key == (OWN, name, decision.at + after) for one in decision.session.reminders):
        decision.add(e.CommandRefused(refusals.TIMER_IS_SET))
    else:
        decision.add(e.ReminderSet(OWN, decision.at + after, name, int(after.total_seconds()), said.sound))


def _reminded(decision: Decision, said: Say) -> None:
    """Done: the one that was named, or the only one that waits."""
    named = [one for one in decision.session.latched() if said.reason in ("", one.kind)]
    one = _only(decision, named)
    if one is not None and KINDS[one.kind].by_finding:
        decision.add(e.CommandRefused(refusals.FOUND_BY_LOOKING[one.kind]))
    elif one is not None:
        decision.add(e.ReminderAnswered(*one.key, "done"))


def _later(decision: Decision, said: Say) -> None:
    """All that wait come again after so many minutes."""
    minutes = int(said.reason)
    if not 0 < minutes <= LONGEST_DELAY_MIN:
        decision.add(e.CommandRefused(refusals.DELAY_RANGE))
        return
    until = decision.at + timedelta(minutes=minutes)
    for one in decision.session.latched():
        decision.add(e.ReminderPostponed(*one.key, until))


def _not_needed(decision: Decision, said: Say) -> None:
    """Not without a reason, which the record keeps."""
    if _only(decision, decision.session.latched()) is None:
        return
    if said.reason:
        needless(decision, said.reason, "")
    else:
        decision.add(e.ReasonAsked("reminder"))


def needless(decision: Decision, reason: str, sound: str) -> None:
    """Take the reason for which the one reminder that waits is not needed."""
    one = _only(decision, decision.session.latched())
    if one is not None:
        decision.add(e.ReminderAnswered(*one.key, "not needed", reason, sound))


def _only(decision: Decision, latched: tuple[Reminder, ...] | list[Reminder]) -> Reminder | None:
    """The one reminder that is meant; refused in words where none is, or more."""
    match list(latched):
        case [one]:
            return one
        case []:
            decision.add(e.CommandRefused(refusals.NO_REMINDER))
        case _:
            decision.add(e.CommandRefused(refusals.MORE_REMINDERS))
    return None


def _level(decision: Decision, said: Say) -> None:
    """So many millilitres are left: the estimate moves."""
    bag, left_ml = decision.session.bag, Fraction(said.reason)
    if bag is None or left_ml > bag.full_ml:
        decision.add(e.CommandRefused(refusals.MORE_THAN_FULL))
        return
    seen = bag.seen(left_ml, decision.at)
    decision.add(e.LevelReported(left_ml, int((seen.empty_at() - decision.at).total_seconds())))


def _bag_changed(decision: Decision, said: Say) -> None:
    """The next bag runs, with as much in it as was said, or as in the one before."""
    bag = decision.session.bag
    volume_ml = Fraction(said.reason) if said.reason else bag.full_ml if bag else Fraction()
    if volume_ml > 0:
        decision.add(e.BagHung(volume_ml))
    else:
        decision.add(e.CommandRefused(refusals.EMPTY_BAG))


def _tubing_changed(decision: Decision, _: Say) -> None:
    decision.add(e.TubingChanged())


def _case(decision: Decision, said: Say) -> None:
    decision.add(e.CaseTold(said.reason))


def _bag_asked(decision: Decision, _: Say) -> None:
    decision.add(bag_told(decision.session, decision.at))


def _given_asked(decision: Decision, _: Say) -> None:
    decision.add(bag_told(decision.session, decision.at, given=True))


def _upcoming(decision: Decision, _: Say) -> None:
    decision.add(next(iter(dues(decision.session, decision.at)), e.UpcomingTold("", "", 0)))


REPLIES: Mapping[str, Callable[[Decision, Say], None]] = MappingProxyType(
    {
        "remind": _remind,
        "reminded": _reminded,
        "later": _later,
        "not_needed": _not_needed,
        "level": _level,
        "bag_changed": _bag_changed,
        "bag_asked": _bag_asked,
        "given_asked": _given_asked,
        "tubing_changed": _tubing_changed,
        "case": _case,
        "upcoming": _upcoming,
    }
)
"""What each command about reminders does."""
