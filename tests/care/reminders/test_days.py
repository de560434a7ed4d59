"""Simulated days on the running line: no reminder is lost, none comes twice without cause."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care import events as e
from handsfree.care.commands import Command, Say
from handsfree.care.evolution import fold
from handsfree.care.rules import Mode
from tests.care.reminders.days import Day, answers, running

SAID = (
    answers("site_fine"),
    answers("count", "42/60"),
    answers("count", "60/60"),
    *(
        Say(rule, rule)
        for rule in ("site_trouble", "reminded", "stop", "carry_on", "undo", "pause", "listen")
    ),
    *(
        Say(rule, rule)
        for rule in ("upcoming", "bag_asked", "bag_changed", "tubing_changed", "new_order", "next")
    ),
    Say("remind", "", reason="10/turn the patient"),
    Say("remind", "", reason="90/"),
    Say("later", "", reason="10"),
    Say("not_needed", "", reason="no time"),
    Say("not_needed", ""),
    Say("level", "", reason="300"),
    Say("bag_changed", "", reason="500"),
    Say("case", "", reason="child"),
    answers("fluid", "sodium chloride 0.9 %"),
    answers("infusion_time", "360"),
    Say("correct", "correct"),
    Say("wrong", "wrong"),
)
lines = st.lists(
    st.one_of(
        st.sampled_from(SAID),
        st.integers(1, 7200).map(lambda seconds: ("wait", seconds)),
        st.integers(1, 30_000).map(lambda seconds: ("cut", seconds)),
    ),
    max_size=30,
)


def lived(script: Iterable[object]) -> Day:
    day = Day()
    for line in script:
        match line:
            case ("wait", int(seconds)):
                day.wait(seconds)
            case ("cut", int(seconds)):
                day.cut(seconds)
            case Say() as said if day.session.mode is not Mode.REASONING or said.rule in ("wrong", "stop"):
                day.do(said)
            case _:
                pass
    return day


@settings(max_examples=150, deadline=None)
@given(lines)
def test_what_is_due_is_said(script: list[object]) -> None:
    """However the day went: once the session is quiet and awake, everything that is due was said."""
    day = lived(script)
    if day.session.mode is Mode.HELD:
        day.do(Say("carry_on", ""))
    day.wait(31)
    open_now = [one for one in day.session.reminders if not one.answered and one.due <= day.now]
    asked = day.session.mode in (Mode.CONFIRMING, Mode.CHOOSING)
    assert asked or all(one.said or one.next > day.now for one in open_now)


@settings(max_examples=150, deadline=None)
@given(lines)
def test_none_comes_twice_without_cause(script: list[object]) -> None:
    """The same reminder is never said twice within a minute, unless something that was said took it back."""
    day = lived(script)
    undone = [one.at for one in day.kept if isinstance(one.event, e.Undone | e.ReminderSet)]
    last: dict[tuple[str, str, datetime], tuple[datetime, int]] = {}
    for at, due in day.said():
        before, times = last.get((due.kind, due.name, due.due), (at, 0))
        if times and not any(before <= one <= at for one in undone):
            assert at - before >= timedelta(minutes=1)
            assert due.times == times + 1
        last[due.kind, due.name, due.due] = (at, due.times)


@settings(max_examples=80, deadline=None)
@given(lines, st.integers(0, 200))
def test_the_record_gives_the_same_day(script: list[object], cut: int) -> None:
    """Folded from its events, in how many pieces ever, the session remembers the same."""
    day = lived(script)
    assert fold(fold(running(), day.kept[:cut]), day.kept[cut:]) == day.session


@settings(max_examples=80, deadline=None)
@given(lines)
def test_there_is_a_reminder_as_long_as_the_line_runs(script: list[object]) -> None:
    """Whatever was said, the site is to be looked at again, and the bag is waited for until it is empty."""
    day = lived(script)
    kinds = [one.kind for one in day.session.reminders]
    assert {"site", "bag_empty", "recount", "hang", "catheter", "tubing"} <= set(kinds)
    assert day.session.bag
    assert ("bag_low" in kinds) == (day.now < day.session.bag.empty_at())
    assert len(kinds) - kinds.count("own") == len(set(kinds) - {"own"})


def answered_at_once(hours: int, changes: dict[int, tuple[Command, ...]]) -> dict[str, list[float]]:
    """The hours, from 08:01 on, at which each kind was said to somebody who answers all at once."""
    day = Day(running("common"))
    heard: dict[str, list[float]] = {}
    for minute in range(hours * 60):
        for command in changes.get(minute, ()):
            day.do(command)
        before = len(day.kept)
        day.wait(60)
        for _, due in [
            (one.at, one.event) for one in day.kept[before:] if isinstance(one.event, e.ReminderDue)
        ]:
            heard.setdefault(due.kind, []).append(round((minute + 1) / 60, 2))
            match due.kind:
                case "site":
                    day.do(answers("site_fine"))
                case "recount":
                    day.do(answers("count", "42/60"))
                case "bag_empty":
                    day.do(Say("bag_changed", ""))
                case kind:
                    day.do(Say("reminded", "", reason=kind))
    return heard


def test_twelve_hours_of_one_line() -> None:
    """1000 mL over 8 h, answered at once: site every four hours, drops at fifteen minutes and hourly, the bag
    half an hour before it is empty; a new bag begins anew."""
    assert answered_at_once(12, {}) == {
        "recount": [0.25, 1.25, 2.25, 3.25, 4.25, 5.25, 6.25, 7.25, 8.25, 9.25, 10.25, 11.25],
        "site": [4.0, 8.0, 12.0],
        "bag_low": [7.5],
        "bag_empty": [8.0],
    }


def test_twelve_hours_with_changes() -> None:
    """A child from hour 2 on, 300 mL seen at hour 3 (empty 2.4 h later), the next bag 500 mL."""
    changes: dict[int, tuple[Command, ...]] = {
        120: (Say("case", "", reason="child"),),
        180: (Say("level", "", reason="300"),),
        300: (Say("bag_changed", "", reason="500"),),
    }
    heard = answered_at_once(8, changes)
    assert heard["site"] == [2.02, 3.02, 4.02, 5.02, 6.02, 7.02]
    assert (heard["bag_low"], heard.get("bag_empty")) == ([4.9], None)
    assert heard["recount"] == [0.25, 1.25, 2.25, 3.25, 4.25, 5.25, 6.25, 7.25]
