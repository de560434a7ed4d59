"""Twelve simulated hours with three lines and changes of rate: exactly the reminders that are expected."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.commands import Command, Say, Tick
from handsfree.care.lines import evolve_lines
from handsfree.care.reminders.memory import set_back
from handsfree.care.session import Session
from handsfree.say.wording_choices import which
from handsfree.testing.dialogue import START
from tests.care.reminders.days import Day, answers, running

BEDS = ("bed one", "bed two", "bed three")
BEGAN = {bed: START + timedelta(minutes=n) for n, bed in enumerate(BEDS, 1)}
"""When each line was opened: 1000 mL over 8 h, so 125 mL/h."""

COUNTS = {"bed one": "42/60", "bed two": "42/60", "bed three": "28/60"}
"""What is counted when drops are asked for. 500 mL over 6 h at 20 drops/mL are 27.8 a minute."""


def three() -> Day:
    """Three lines of the same order, each opened a minute after the one before; the last is at hand."""
    one, two, last = (
        replace(set_back(running("common"), BEGAN["bed one"] - BEGAN[bed]), name=bed) for bed in BEDS
    )
    return Day(replace(last, others=(one, two)), BEGAN["bed three"])


NEW_ORDER = (
    Say("new_order", "new order"),
    answers("fluid", "sodium chloride 0.9 %"),
    Say("correct", "correct"),
    answers("volume", "500"),
    Say("correct", "correct"),
    answers("infusion_time", "360"),
    Say("correct", "correct"),
    answers("clamp_open"),
    answers("count", "28/60"),
)

CHANGES: dict[tuple[str, float], tuple[Command, ...]] = {
    ("bed two", 2): (Say("case", "", reason="child", line="bed two"),),
    ("bed two", 3): (Say("level", "", reason="300", line="bed two"),),
    ("bed two", 5): (Say("bag_changed", "", reason="500", line="bed two"),),
    ("bed three", 2): (Say("line", "", reason="bed three"), *NEW_ORDER),
}
"""By line, and hours after it was opened."""


def answered(due: e.ReminderDue, bed: str) -> Say:
    """What somebody says at once to a reminder of that line."""
    said = {
        "site": answers("site_fine"),
        "recount": answers("count", COUNTS[bed] if bed != "bed three" or due.due > CHANGED else "42/60"),
        "bag_empty": Say("bag_changed", ""),
    }.get(due.kind, Say("reminded", "", reason=due.kind))
    return Say(said.rule, said.text, said.answers, said.reason, line=bed)


CHANGED = BEGAN["bed three"] + timedelta(hours=2)


def moments(day: Day, until: datetime) -> Iterator[datetime]:
    """Each time at which something is due or is said, until the end."""
    changes = sorted(BEGAN[bed] + timedelta(hours=hours) for bed, hours in CHANGES)
    while True:
        due = day.session.deadline()
        coming = [at for at in (*changes, *([due] if due else [])) if at > day.now or at == due]
        at = min(coming, default=until)
        if at > until:
            return
        changes = [one for one in changes if one > at]
        yield at


def lived() -> dict[str, dict[str, list[float]]]:
    """By line and kind: the hours after it was opened at which reminders were said."""
    day, heard = three(), {bed: dict[str, list[float]]() for bed in BEDS}
    for at in moments(day, BEGAN["bed three"] + timedelta(hours=12)):
        day.now = at
        begin = len(day.kept)
        for (bed, hours), commands in CHANGES.items():
            if BEGAN[bed] + timedelta(hours=hours) == at:
                for command in commands:
                    day.do(command)
        day.do(Tick())
        for bed, due in whose(day, begin):
            hours = (at - BEGAN[bed]).total_seconds() / 3600
            heard[bed].setdefault(due.kind, []).append(round(hours, 4))
            day.do(answered(due, bed))
    return heard


def whose(day: Day, begin: int) -> list[tuple[str, e.ReminderDue]]:
    """The reminders among the events from one on, each with its line, as the record tells it."""
    session: Session = three().session
    found = []
    for n, one in enumerate(day.kept):
        session = evolve_lines(session, one.event, one.at)
        if n >= begin and isinstance(one.event, e.ReminderDue):
            found.append((session.name, one.event))
    return found


QUARTERS = [0.25 + hour for hour in range(12)]


def test_twelve_hours_with_three_lines() -> None:
    """Each line by its own clocks. Bed two: a child from hour 2 on, 300 mL seen at hour 3 (2.4 h left), then
    500 mL bags of 4 h. Bed three: from hour 2 on 500 mL over 6 h, set and counted anew."""
    heard = lived()
    assert heard["bed one"] == {
        "recount": QUARTERS,
        "site": [4, 8, 12],
        "bag_low": [7.5],
        "bag_empty": [8],
    }
    assert heard["bed two"] == {
        "recount": QUARTERS,
        "site": [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
        "bag_low": [4.9, 8.5],
        "bag_empty": [9],
    }
    assert heard["bed three"] == {
        "recount": QUARTERS,
        "site": [4, 8, 12],
        "bag_low": [7.5],
        "bag_empty": [8],
    }


def test_which_of_three_is_asked_and_answered_by_name() -> None:
    """A look at the site may be for any of three, none of them at hand; the same again tells nothing."""
    day = three()
    day.do(Say("line_begun", "new patient bed four", reason="bed four"))
    for said in (answers("site_fine"), Say("line", "bed two", reason="bed two")):
        day.do(answers("site_fine"))
        choice = day.session.choice
        assert choice is not None
        assert set(BEDS) == {one.line for one in choice.candidates}
        assert which(choice.candidates) == "For bed one, or bed two, or bed three?"
        day.do(said)
        assert None is day.session.choice
