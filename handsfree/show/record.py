"""The record as entries: who did what when, what was found and left out and why, and what is lost of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from handsfree.care import events as e
from handsfree.care.belonging import Whose
from handsfree.care.checklist import Checklist
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.reminders.reminder import OWN
from handsfree.ports import Damage
from handsfree.say.wording_values import value_words
from handsfree.say.wording_written import unverified
from handsfree.show.debrief.marks import State
from handsfree.show.debrief.run import Run
from handsfree.show.record_drill import DRILL_ENTRIES

USER, PROGRAM = "user", "program"


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the record. at: UTC, None for what holds of the whole session. who: USER or PROGRAM.

    kind: of entry, for whoever sorts them. what: a step, a reminder. value: what was read, said or counted.
    note: what else is to be known: a reason, where the sound of unverified words lies, how late.
    line: its name, empty where there is only one. checklist: title of the one at hand.
    """

    at: datetime | None
    who: str
    kind: str
    what: str
    value: str = ""
    note: str = ""
    line: str = ""
    checklist: str = ""


def entries(happened: Iterable[Whose], runs: Iterable[Run], damage: Iterable[Damage]) -> tuple[Entry, ...]:
    """The record of a session: what happened, in order; then what was left open, and what is lost.

    runs: of the session, one for each line or trainee.
    """
    return (
        *_happened(happened),
        *(
            Entry(None, PROGRAM, "left open", _plain(step.name), line=run.line, checklist=run.title)
            for run in runs
            for step in run.steps
            if step.state in _NOT_DONE
        ),
        *(Entry(None, PROGRAM, "lost", str(one)) for one in damage),
    )


_NOT_DONE = (State.LEFT_OPEN, State.MISSED, State.NOT_SEEN)


def _happened(happened: Iterable[Whose]) -> Iterator[Entry]:
    heard = ""
    for one in happened:
        event = one.record.event
        if isinstance(event, e.SpeechUnderstood):
            heard = event.text
        found = _found(event, one.checklist, heard)
        if found is not None:
            who, kind, what, value, note = (*found, "", "")[:5]
            yield Entry(one.record.at, who, kind, what, value, note, one.line, one.checklist.title)


def _found(event: e.Event, checklist: Checklist, heard: str) -> Found | None:
    match event:
        case e.FindingReported(name):
            return (USER, "finding", _plain(name), heard)
        case e.EmergencyRaised(name):
            return (USER, "emergency", _plain(name), heard)
        case _:
            write = _WRITTEN.get(type(event))
            return write(event, checklist) if write else None


Found = tuple[str, ...]
"""Fields of an entry, from who on."""


def _plain(name: str) -> str:
    return name.replace("_", " ")


def _figures(number: int | Fraction) -> str:
    return f"{float(number):.10g}"


def _value(kind: str, value: str) -> str:
    """A value to be read: figures, with the unit in full."""
    return value if kind in _AS_THEY_ARE else value_words(kind, value, _figures)


_AS_THEY_ARE = ("expiry", "fluid", "bag_fluid")
"""Kinds of value whose own text is plainer than the words."""


def _note(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _unverified(sound: str) -> str:
    return unverified(sound) if sound else ""


def _late(seconds: int) -> str:
    return f"{seconds} s late" if seconds >= 5 else ""


def _closed(event: e.StepClosed, checklist: Checklist) -> Found:
    step = checklist.step(event.step)
    kind = "attempt" if step.attempt else "count" if event.kind == "count" else "check"
    value = _value(event.kind, event.value) if event.kind else event.words
    return (USER, kind, _plain(event.step), value, "read back, confirmed" if event.confirmed else "")


def _stop(event: e.StopRaised, _: Checklist) -> Found:
    other = f"other: {_value(event.other_kind, event.other_value)}" if event.other_kind else ""
    note = _note(_plain(event.ground), other)
    return (PROGRAM, "stop", _plain(event.step), _value(event.kind, event.value), note)


def _dropped(event: e.ProposalDropped, _: Checklist) -> Found | None:
    return (USER, "read-back", "not confirmed", "", event.why)


def _rate(event: e.RateComputed, _: Checklist) -> Found:
    order = (
        f"{POLICY.write(event.volume_ml, 'mL')} over {POLICY.write(event.time_min, 'min')}, "
        f"{POLICY.write(event.drop_factor_per_ml, 'gtt/mL')}"
    )
    rate = f"{POLICY.write(event.drop_rate_per_min, 'gtt/min')}, {POLICY.write(event.rate_ml_per_h, 'mL/h')}"
    return (PROGRAM, "rate", "computed", rate, order)


def _counted(event: e.FlowCounted, _: Checklist) -> Found:
    drops = f"{_figures(event.drops)} drops in {_figures(event.over_s)} s"
    return (USER, "count", "off the order", drops, f"wanted {POLICY.write(event.wanted_per_min, 'gtt/min')}")


def _started(event: e.SessionStarted, checklist: Checklist) -> Found:
    return (PROGRAM, "session", "began", checklist.title, f"{event.kind}, ear {event.ear}")


def _resumed(event: e.SessionResumed, _: Checklist) -> Found:
    lost = f"{event.lost} rows lost before" if event.lost else ""
    back = f"clock {event.set_back_s} s behind" if event.set_back_s else ""
    return (PROGRAM, "session", "gone on with", "", _note(lost, back))


def _ended(event: e.ChecklistEnded, _: Checklist) -> Found:
    left = ", ".join(map(_plain, event.open_steps))
    return (USER, "checklist", _plain(event.checklist), event.how, f"left open: {left}" if left else "")


def _reminder(event: e.ReminderSet | e.ReminderDue | e.ReminderAnswered | e.ReminderPostponed) -> str:
    return event.name or ("timer" if event.kind == OWN else _plain(event.kind))


def _due(event: e.ReminderDue, _: Checklist) -> Found:
    times = f"said {event.times} times" if event.times > 1 else ""
    return (PROGRAM, "reminder", _reminder(event), "due", _note(times, _late(event.late_s)))


def _set(event: e.ReminderSet, _: Checklist) -> Found | None:
    if not event.after_s:
        return None
    note = _note(f"in {event.after_s} s", _unverified(event.sound))
    return (USER, "reminder", _reminder(event), "set", note)


def _answered(event: e.ReminderAnswered, _: Checklist) -> Found:
    note = _note(event.reason, _unverified(event.sound))
    return (USER, "reminder", _reminder(event), event.how, note)


def _postponed(event: e.ReminderPostponed, _: Checklist) -> Found:
    return (USER, "reminder", _reminder(event), "later", f"until {event.until:%H:%M:%S} UTC")


_WRITTEN: Mapping[type, Callable[[Any, Checklist], Found | None]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: _resumed,
        e.SessionEnded: lambda event, _: (USER, "session", "ended", event.how),
        e.ChecklistBegun: lambda event, _: (USER, "checklist", _plain(event.checklist), "begun"),
        e.ChecklistEnded: _ended,
        e.LineNamed: lambda event, _: (USER, "line", event.name, "named"),
        e.LineBegun: lambda event, _: (USER, "line", event.name, "begun"),
        e.StepClosed: _closed,
        e.StepSkipped: lambda event, _: (
            *(USER, "left out", _plain(event.step), event.reason, _unverified(event.sound)),
        ),
        e.StepLeftOpen: lambda event, _: (PROGRAM, "not understood", _plain(event.step)),
        e.StepsReopened: lambda event, _: (
            *(PROGRAM, "opened again", ", ".join(map(_plain, event.steps)), "", _plain(event.because)),
        ),
        e.AttemptsUsedUp: lambda event, _: (PROGRAM, "attempt", "used up", str(event.attempts)),
        e.BranchChosen: lambda event, _: (USER, "course", "branch", _plain(event.branch) or "not chosen"),
        e.PathShortened: lambda event, _: (USER, "course", "critical steps only"),
        e.CueFired: lambda event, _: (PROGRAM, "timer", _plain(event.step), event.say, _late(event.late_s)),
        e.StopRaised: _stop,
        e.StopOverridden: lambda event, _: (
            *(USER, "gone on anyway", _plain(event.step), event.reason, _unverified(event.sound)),
        ),
        e.StopLifted: lambda event, _: (PROGRAM, "stop", _plain(event.step), "lifted"),
        e.ProposalDropped: _dropped,
        e.RateComputed: _rate,
        e.FlowCounted: _counted,
        e.Undone: lambda event, _: (USER, "taken back", "the last change"),
        e.ReminderSet: _set,
        e.ReminderDue: _due,
        e.ReminderAnswered: _answered,
        e.ReminderPostponed: _postponed,
        e.BagHung: lambda event, _: (USER, "bag", "changed", f"{_figures(event.volume_ml)} mL"),
        e.LevelReported: lambda event, _: (USER, "bag", "left in it", f"{_figures(event.left_ml)} mL"),
        e.TubingChanged: lambda event, _: (USER, "tubing", "changed"),
        e.CaseTold: lambda event, _: (USER, "patient or line", event.case),
        e.SoundTroubled: lambda event, _: (PROGRAM, "trouble", "microphone", event.trouble.value),
        e.SoundMended: lambda event, _: (PROGRAM, "trouble", "microphone", f"{event.trouble.value}, over"),
        e.PlayingFailed: lambda event, _: (PROGRAM, "trouble", "not said aloud", event.text, event.why),
        **DRILL_ENTRIES,
    }
)
"""What each other kind of event is in the record; those not named here are in events.jsonl alone."""
