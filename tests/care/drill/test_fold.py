"""A drill is the fold of its record, wherever it was cut; taking back leads to where one was."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.care import events as e
from handsfree.care.drill.rules import Mode
from handsfree.care.drill.session import Run
from handsfree.conducts.drill import DRILL
from handsfree.testing.dialogue import START, Talk
from tests.care.drill.drills import drilled, events, marks, shipped

LINES = """\
go / go / missed / gauge done / missed the kit and unsafe / tourniquet on octopus / no air done / back ten
scratch that / mark / note / the cap fell / lap / start the clock / stop the clock / needle stick
this is real
marks aloud / sounds only / last mark / finish the run / next trainee anna / trainee ben / next trainee
end session / yes end it / wrong / time check / +1 / +7 / +20"""

SAID = st.sampled_from([line.strip() for row in LINES.splitlines() for line in row.split("/")])


def folded(records: list[e.Recorded]) -> object:
    started = records[0].event
    assert isinstance(started, e.SessionStarted)
    return DRILL.fold(DRILL.new(shipped(), started, START), records)


@settings(max_examples=60, deadline=None)
@given(st.lists(SAID, max_size=25))
def test_replay_equals_live(script: list[str]) -> None:
    """What was kept gives the session as it ended, to the last field."""
    talk = drilled(*script)
    assert folded(events(talk)) == talk.session


@settings(max_examples=60, deadline=None)
@given(st.lists(SAID, max_size=15), st.sampled_from(["missed", "gauge done", "note", "lap", "back ten"]))
def test_marks_keep_their_order_and_no_number_comes_twice(script: list[str], last: str) -> None:
    """Numbers grow through the whole session; no mark stands before its run began."""
    session = drilled("go", *script, last).session
    numbers = [mark.number for run in session.runs for mark in run.marks]
    assert numbers == sorted(set(numbers))
    assert all(mark.at >= run.began for run in session.runs for mark in run.marks)


def run_after(talk: Talk) -> Run:
    run = talk.session.run
    assert isinstance(run, Run)
    return run


@settings(max_examples=60, deadline=None)
@given(st.lists(SAID.filter(lambda line: "session" not in line and "end it" not in line), max_size=12))
def test_scratch_takes_away_what_one_mark_brought(script: list[str]) -> None:
    """After a mark and a "scratch that" the run is what it was without them."""
    before = drilled("go", *script, "finish the run", "+20", "go", "gauge done")
    after = drilled("go", *script, "finish the run", "+20", "go", "gauge done", "missed", "scratch that")
    assert marks(run_after(before)) == marks(run_after(after))


def test_going_on_after_it_was_cut_off() -> None:
    """A run goes on; words that were waited for did not come; a question is not open any more."""
    for script, mode in (
        (("go", "missed"), Mode.RUNNING),
        (("go", "note"), Mode.RUNNING),
        (("go", "end session"), Mode.RUNNING),
        (("go", "finish the run"), Mode.AFTER),
        (("trainee anna",), Mode.READY),
    ):
        session = drilled(*script).session
        resumed = e.SessionResumed("typed", reads_back=False)
        for event in DRILL.resume(session, resumed, START):
            session = DRILL.evolve(session, event, START)
        assert (session.mode, session.deadline()) == (mode, None)


def test_going_on_after_the_input_ended() -> None:
    """A recording that is over ends the session, and not for good: the mode of before comes back."""
    session = drilled("go", "missed").session
    for event in (e.SessionEnded("input ended"), e.SessionResumed("typed", reads_back=False)):
        session = DRILL.evolve(session, event, START)
    assert session.mode is Mode.RUNNING
