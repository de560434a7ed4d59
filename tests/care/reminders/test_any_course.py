"""Whatever happens to a session of several lines: no reminder is lost, and the record is the session."""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import datetime, timedelta

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from handsfree.care import events as e
from handsfree.care.commands import Say, Tick
from handsfree.care.decide import decide, resume
from handsfree.care.lines import evolve_lines
from handsfree.care.reminders.memory import set_back
from handsfree.care.reminders.reminder import Reminder
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.conducts.guide import GUIDE
from handsfree.keep.fields import read_time
from handsfree.record import CODEC, Record
from handsfree.testing.dialogue import SESSION
from handsfree.testing.journal import MemoryJournal
from tests.care.reminders.days import BEGUN, answers, running

BEDS = ("bed one", "bed two", "bed three")
LINE = st.sampled_from(("", "", "", *BEDS))
QUIET = (Mode.HELD, Mode.ASLEEP, Mode.CONFIRMING, Mode.CHOOSING, Mode.ASKING)

SAID = (
    *(answers("site_fine"), answers("count", "42/60"), answers("count", "60/60"), answers("clamp_open")),
    *(
        answers("swelling"),
        answers("leak"),
        answers("pain"),
        answers("runs"),
        answers("shut"),
        answers("out"),
    ),
    *(answers("swapped"), answers("air"), answers("opened"), answers("place_told"), answers("gloves")),
    *(answers("fluid", "sodium chloride 0.9 %"), answers("volume", "500"), answers("infusion_time", "360")),
    *(Say(name, name) for name in ("site_check", "bag_change", "flush_lock", "remove_line", "handover")),
    *(Say(name, name) for name in ("leave", "undo", "next", "back", "stop", "carry_on", "pause", "listen")),
    *(Say(name, name) for name in ("site_trouble", "swollen", "red", "reminded", "bag_changed")),
    *(Say(name, name) for name in ("new_order", "correct", "wrong", "first", "second", "upcoming", "end")),
    *(Say("line", bed, reason=bed) for bed in BEDS),
    Say("line_begun", "", reason="bed four"),
    Say("remind", "", reason="10/turn the patient"),
    Say("remind", "", reason="90/"),
    Say("later", "", reason="10"),
    Say("not_needed", "", reason="no time"),
    Say("level", "", reason="300"),
    Say("case", "", reason="child"),
)


ORDER = tuple(
    one
    for value in (answers("fluid", "sodium chloride 0.9 %"), answers("volume", "500"))
    for one in (value, Say("correct", "correct"))
)
COURSES = (
    (Say("site_check", ""), *map(answers, ("swelling", "leak", "cold", "pale", "numb")), Say("red", "")),
    (Say("site_check", ""), Say("swollen", ""), Say("undo", ""), Say("swollen", ""), Say("leave", "")),
    (Say("bag_change", ""), *ORDER, Say("site_check", ""), Say("leave", ""), Say("leave", "")),
    (Say("bag_change", ""), *ORDER, answers("bag_fluid", "sodium chloride 0.9 %"), Say("undo", "")),
    (Say("remove_line", ""), *map(answers, ("gloves", "shut", "out", "tip_whole")), Say("undo", "")),
    (Say("handover", ""), *[answers("place_told")] * 5, answers("read_back"), answers("taken")),
    (Say("new_order", ""), *ORDER, answers("infusion_time", "360"), Say("correct", "correct")),
    (answers("count", "42/60"), answers("site_fine"), Say("first", ""), Say("reminded", "")),
    (Say("stop", ""), Say("carry_on", ""), Say("pause", ""), Say("listen", "")),
)
"""What people do, step by step."""


def three() -> Session:
    """Three lines that run, each opened a minute after the one before; the last is at hand."""
    lines = [
        replace(set_back(running("cdc_2011"), timedelta(minutes=-n)), name=bed) for n, bed in enumerate(BEDS)
    ]
    return replace(lines[-1], others=tuple(lines[:-1]))


class Course(RuleBasedStateMachine):
    """A session under random commands, waits, cuts and clocks that are set back."""

    @initialize()
    def begin(self) -> None:
        self.session, self.now = three(), BEGUN + timedelta(minutes=2)
        self.journal = MemoryJournal()
        self.record = Record(self.journal, SESSION)
        self.said: dict[tuple[str, tuple[str, str, datetime]], tuple[datetime, int]] = {}
        self.take((e.Told("where"),))

    def take(self, events: tuple[e.Event, ...]) -> None:
        """Write, then remember; and see that none is said twice without cause."""
        self.record.keep([e.Recorded(self.now, event) for event in events])
        for event in events:
            self.session = evolve_lines(self.session, event, self.now)
            match event:
                case e.ReminderDue(kind, name, due, times):
                    self.heard((self.session.name, (kind, name, due)), times)
                case e.Undone() | e.ReminderSet() | e.SessionResumed():
                    self.said.clear()

    def heard(self, reminder: tuple[str, tuple[str, str, datetime]], times: int) -> None:
        before, count = self.said.get(reminder, (None, 0))
        if before is not None:
            assert self.now - before >= timedelta(minutes=1)
            assert times == count + 1
        self.said[reminder] = (self.now, times)

    @rule(said=st.lists(st.tuples(st.sampled_from(SAID), LINE), min_size=1, max_size=8))
    def say(self, said: list[tuple[Say, str]]) -> None:
        """Anything, each for the line at hand or another one."""
        for one, line in said:
            self.hear(one, line)

    @rule(course=st.sampled_from(COURSES), upto=st.integers(1, 9), line=LINE)
    def walk(self, course: tuple[Say, ...], upto: int, line: str) -> None:
        """The beginning of something that makes sense, to its end or not."""
        self.hear(course[0], line)
        for one in course[1:upto]:
            self.hear(one, "")

    def hear(self, said: Say, line: str) -> None:
        """One sentence, a second after what was before; a question in between is not answered."""
        if self.session.mode in (Mode.REASONING, Mode.ENDING):
            said, line = Say("wrong", "wrong"), ""
        self.now += timedelta(seconds=1)
        self.take(decide(self.session, replace(said, line=line), self.now))

    @rule(seconds=st.integers(1, 2500))
    def wait(self, seconds: int) -> None:
        """Time passes as in the corridor: from deadline to deadline."""
        until = self.now + timedelta(seconds=seconds)
        while (due := self.session.deadline()) is not None and due <= until:
            self.now = max(self.now, due)
            self.take(decide(self.session, Tick(), self.now))
        self.now = until

    @rule(seconds=st.integers(1, 40_000))
    def sleep(self, seconds: int) -> None:
        """The machine sleeps: one late tick for all."""
        self.now += timedelta(seconds=seconds)
        self.take(decide(self.session, Tick(), self.now))

    @rule(seconds=st.integers(1, 30_000), back=st.sampled_from((0, 0, 3600)))
    def cut(self, seconds: int, back: int) -> None:
        """Killed, and resumed later, on a clock that may have been set back."""
        self.now += timedelta(seconds=seconds - back)
        self.take(resume(self.session, e.SessionResumed("typed", False, 0, max(0, back - seconds)), self.now))

    @invariant()
    def nothing_is_lost(self) -> None:
        """A line that runs has its reminders; what is due was said, or waits for silence to end."""
        for line in (self.session, *self.session.others):
            kinds = {one.kind for one in line.reminders}
            assert not line.since.get("site") or "site" in kinds
            assert not line.bag or "bag_empty" in kinds
            assert not line.bag or line.bag.empty_at() <= self.now or "bag_low" in kinds
            assert not line.since.get("flow") or "recount" in kinds
            assert len(kinds - {"own"}) == len([one for one in line.reminders if one.kind != "own"])

    @precondition(lambda self: self.session.mode not in QUIET)
    @rule()
    def all_that_is_due_is_said(self) -> None:
        """Once a tick has come while nothing keeps it silent, every reminder that is due was said."""
        self.take(decide(self.session, Tick(), self.now))
        assert self.session.mode in QUIET or not self.unsaid()

    def unsaid(self) -> list[Reminder]:
        """Reminders whose time has come and that were not said, or not again."""
        return [
            one
            for line in (self.session, *self.session.others)
            for one in line.reminders
            if not one.answered and one.next <= self.now and one.kind not in line.answering
        ]

    @invariant()
    def asks_for_another_time(self) -> None:
        """One line is at hand, nothing is left aside, and each has its name once."""
        names = [one.name for one in (self.session, *self.session.others)]
        assert self.session.aside_of == "" == "".join(one.aside_of for one in self.session.others)
        assert len(names) == len(set(names)) >= 3
        assert all(one.others == () for one in self.session.others)

    def teardown(self) -> None:
        """Replay equals live, event by event as the journal has them."""
        kept = [e.Recorded(read_time(row.at), CODEC.decode(row)) for row in self.journal.read(SESSION)]
        assert GUIDE.fold(three(), kept) == self.session


TestAnyCourse = Course.TestCase
TestAnyCourse.settings = settings(
    max_examples=30 if os.environ.get("CI") else 15,
    stateful_step_count=30,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
