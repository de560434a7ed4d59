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
from handsfree.say.wording_keys import called, key
from handsfree.say.wording_values import value_words
from handsfree.say.wording_written import unverified
from handsfree.show.debrief.marks import State
from handsfree.show.debrief.run import Run
from handsfree.show.record_drill import DRILL_ENTRIES
from handsfree.words import worded

USER, PROGRAM = "user", "program"


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the record. at: UTC, None for what holds of the whole session. who: USER or PROGRAM.

    kind: of entry, for whoever sorts them. what: a step, a reminder. value: what was read, said or counted.
    Who and kind are keys, and so are what and value where they are a Key.
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
            Entry(None, PROGRAM, "left open", key(step.name), line=run.line, checklist=run.title)
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
            return (USER, "finding", key(name), heard)
        case e.EmergencyRaised(name):
            return (USER, "emergency", key(name), heard)
        case _:
            write = _WRITTEN.get(type(event))
            return write(event, checklist) if write else None


Found = tuple[str, ...]
"""Fields of an entry, from who on."""


def _figures(number: int | Fraction) -> str:
    return f"{float(number):.10g}"


def _value(kind: str, value: str) -> str:
    """A value to be read: figures, with the unit in full."""
    return value if kind in _AS_THEY_ARE else value_words(kind, value, _figures)


_AS_THEY_ARE = ("expiry", "fluid", "bag_fluid")
"""Kinds of value whose own text is plainer than the words."""


def _names(steps: Iterable[str]) -> str:
    return ", ".join(map(called, steps))


def _note(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _unverified(sound: str) -> str:
    return unverified(sound) if sound else ""


def _late(seconds: int) -> str:
    return worded("{seconds} s late", seconds=seconds) if seconds >= 5 else ""


def _closed(event: e.StepClosed, checklist: Checklist) -> Found:
    step = checklist.step(event.step)
    kind = "attempt" if step.attempt else "count" if event.kind == "count" else "check"
    value = _value(event.kind, event.value) if event.kind else event.words
    note = worded("read back, confirmed") if event.confirmed else ""
    return (USER, kind, key(event.step), value, note)


def _stop(event: e.StopRaised, _: Checklist) -> Found:
    note = called(event.ground)
    if event.other_kind:
        other = worded("other: {value}", value=_value(event.other_kind, event.other_value))
        note = _note(note, other)
    return (PROGRAM, "stop", key(event.step), _value(event.kind, event.value), note)


def _dropped(event: e.ProposalDropped, _: Checklist) -> Found | None:
    return (USER, "read-back", key("not confirmed"), "", called(event.why))


def _rate(event: e.RateComputed, _: Checklist) -> Found:
    order = worded(
        "{volume} over {time}, {drop_set}",
        volume=POLICY.write(event.volume_ml, "mL"),
        time=POLICY.write(event.time_min, "min"),
        drop_set=POLICY.write(event.drop_factor_per_ml, "gtt/mL"),
    )
    rate = f"{POLICY.write(event.drop_rate_per_min, 'gtt/min')}, {POLICY.write(event.rate_ml_per_h, 'mL/h')}"
    return (PROGRAM, "rate", key("computed"), rate, order)


def _counted(event: e.FlowCounted, _: Checklist) -> Found:
    number, seconds = _figures(event.drops), _figures(event.over_s)
    drops = worded("{number} drops in {seconds} s", number=number, seconds=seconds)
    wanted = worded("wanted {rate}", rate=POLICY.write(event.wanted_per_min, "gtt/min"))
    return (USER, "count", key("off the order"), drops, wanted)


def _started(event: e.SessionStarted, checklist: Checklist) -> Found:
    kind = worded("{kind}, ear {ear}", kind=called(event.kind), ear=event.ear)
    return (PROGRAM, "session", key("began"), checklist.title, kind)


def _resumed(event: e.SessionResumed, _: Checklist) -> Found:
    lost = worded("{rows} rows lost before", rows=event.lost) if event.lost else ""
    back = worded("clock {seconds} s behind", seconds=event.set_back_s) if event.set_back_s else ""
    return (PROGRAM, "session", key("gone on with"), "", _note(lost, back))


def _ended(event: e.ChecklistEnded, _: Checklist) -> Found:
    left = _names(event.open_steps)
    note = worded("left open: {steps}", steps=left) if left else ""
    return (USER, "checklist", key(event.checklist), key(event.how), note)


def _reminder(event: e.ReminderSet | e.ReminderDue | e.ReminderAnswered | e.ReminderPostponed) -> str:
    return event.name or key("timer" if event.kind == OWN else event.kind)


def _due(event: e.ReminderDue, _: Checklist) -> Found:
    times = worded("said {number} times", number=event.times) if event.times > 1 else ""
    return (PROGRAM, "reminder", _reminder(event), key("due"), _note(times, _late(event.late_s)))


def _set(event: e.ReminderSet, _: Checklist) -> Found | None:
    if not event.after_s:
        return None
    note = _note(worded("in {seconds} s", seconds=event.after_s), _unverified(event.sound))
    return (USER, "reminder", _reminder(event), key("set"), note)


def _answered(event: e.ReminderAnswered, _: Checklist) -> Found:
    note = _note(event.reason, _unverified(event.sound))
    return (USER, "reminder", _reminder(event), key(event.how), note)


def _postponed(event: e.ReminderPostponed, _: Checklist) -> Found:
    until = worded("until {time} UTC", time=f"{event.until:%H:%M:%S}")
    return (USER, "reminder", _reminder(event), key("later"), until)


def _troubled(what: str) -> Found:
    return (PROGRAM, "trouble", key("microphone"), key(what))


_WRITTEN: Mapping[type, Callable[[Any, Checklist], Found | None]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: _resumed,
        e.SessionEnded: lambda event, _: (USER, "session", key("ended"), key(event.how)),
        e.ChecklistBegun: lambda event, _: (USER, "checklist", key(event.checklist), key("begun")),
        e.ChecklistEnded: _ended,
        e.LineNamed: lambda event, _: (USER, "line", event.name, key("named")),
        e.LineBegun: lambda event, _: (USER, "line", event.name, key("begun")),
        e.StepClosed: _closed,
        e.StepSkipped: lambda event, _: (
            *(USER, "left out", key(event.step), event.reason, _unverified(event.sound)),
        ),
        e.StepLeftOpen: lambda event, _: (PROGRAM, "not understood", key(event.step)),
        e.StepsReopened: lambda event, _: (
            *(PROGRAM, "opened again", key(", ".join(event.steps)), "", called(event.because)),
        ),
        e.AttemptsUsedUp: lambda event, _: (PROGRAM, "attempt", key("used up"), str(event.attempts)),
        e.BranchChosen: lambda event, _: (
            *(USER, "course", key("branch"), key(event.branch or "not chosen")),
        ),
        e.PathShortened: lambda event, _: (USER, "course", key("critical steps only")),
        e.CueFired: lambda event, _: (PROGRAM, "timer", key(event.step), event.say, _late(event.late_s)),
        e.StopRaised: _stop,
        e.StopOverridden: lambda event, _: (
            *(USER, "gone on anyway", key(event.step), event.reason, _unverified(event.sound)),
        ),
        e.StopLifted: lambda event, _: (PROGRAM, "stop", key(event.step), key("lifted")),
        e.ProposalDropped: _dropped,
        e.RateComputed: _rate,
        e.FlowCounted: _counted,
        e.Undone: lambda event, _: (USER, "taken back", key("the last change")),
        e.ReminderSet: _set,
        e.ReminderDue: _due,
        e.ReminderAnswered: _answered,
        e.ReminderPostponed: _postponed,
        e.BagHung: lambda event, _: (USER, "bag", key("changed"), f"{_figures(event.volume_ml)} mL"),
        e.LevelReported: lambda event, _: (USER, "bag", key("left in it"), f"{_figures(event.left_ml)} mL"),
        e.TubingChanged: lambda event, _: (USER, "tubing", key("changed")),
        e.CaseTold: lambda event, _: (USER, "patient or line", key(event.case)),
        e.SoundTroubled: lambda event, _: _troubled(event.trouble.value),
        e.SoundMended: lambda event, _: _troubled(f"{event.trouble.value}, over"),
        e.PlayingFailed: lambda event, _: (
            *(PROGRAM, "trouble", key("not said aloud"), event.text, event.why),
        ),
        **DRILL_ENTRIES,
    }
)
"""What each other kind of event is in the record; those not named here are in events.jsonl alone."""
