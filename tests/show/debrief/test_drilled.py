"""A drill as runs, from dialogues."""

from __future__ import annotations

import pytest

from handsfree.record import load
from handsfree.shelf import emergencies
from handsfree.show.debrief.drilled import drilled_runs
from handsfree.show.debrief.marks import Kind, State, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.testing.dialogue import CLIP, SESSION
from tests.care.drill.drills import drilled


def runs_of(*script: str) -> tuple[Run, ...]:
    """The runs of a dialogue, from its journal."""
    kept = load(drilled(*script).journal, SESSION, emergencies())
    return drilled_runs(SESSION, kept.session, kept.records)


def test_a_run_for_each_trainee() -> None:
    """With its own marks, times from its own go, and nothing of the other's."""
    anna, ben = runs_of(
        "trainee anna",
        "+10",
        "go",
        "+5",
        "gauge done",
        "+20",
        "next trainee ben",
        "+60",
        "go",
        "+7",
        "missed",
        "end session",
        "yes end it",
    )
    assert (Sort.DRILL, "Anna", 25.0) == (anna.sort, anna.trainee, anna.length_s)
    assert [(5.0, Kind.DONE, "Which cannula?")] == [(one.at_s, one.kind, one.step) for one in anna.marks]
    assert ("Ben", [(7.0, Kind.MISSED, "")]) == (
        ben.trainee,
        [(one.at_s, one.kind, one.step) for one in ben.marks],
    )
    assert {Who.INSTRUCTOR} == {mark.who for run in (anna, ben) for mark in run.marks}
    assert all(0 <= cue.start_ms <= 85_000 for cue in anna.captions)


STEPS = [
    ("gauge done", State.DONE, 0.0, True),
    ("gauge prompted", State.PROMPTED, 0.0, True),
    ("gauge out of order", State.OUT_OF_ORDER, 0.0, True),
    ("gauge missed", State.MISSED, None, False),
    ("gauge not seen", State.NOT_SEEN, None, None),
    ("gauge unsafe", State.DONE, 0.0, True),
]


@pytest.mark.parametrize(("said", "state", "at_s", "seen"), STEPS)
def test_steps(said: str, state: State, at_s: float | None, seen: bool | None) -> None:
    """A verdict says what became of its step, and whether an instructor saw it."""
    (run,) = runs_of("go", said)
    assert [(state, at_s, seen)] == [(step.state, step.at_s, step.seen) for step in run.steps]


def test_the_last_verdict_on_a_step_holds() -> None:
    """A step that was missed and then done is done; both marks are there."""
    (run,) = runs_of("go", "gauge missed", "+5", "gauge done")
    assert ([State.DONE], 2) == ([step.state for step in run.steps], len(run.marks))


CRITICAL = [
    ("unsafe", True), ("contaminated", True), ("needle stick", True), ("missed the sharps box", True),
    ("missed", False), ("missed the kit", False), ("sharps box done", False), ("attempt", False),
]  # fmt: skip


@pytest.mark.parametrize(("said", "critical"), CRITICAL)
def test_what_stands_alone(said: str, critical: bool) -> None:
    """What was unsafe, and a critical step that was missed, is never averaged away."""
    (run,) = runs_of("go", said)
    assert [critical] == [mark.critical for mark in run.marks]


def test_notes_laps_and_clocks() -> None:
    """Words of a note with their clip; each lap and each clock is a time."""
    (run,) = runs_of(
        "go",
        "+4",
        "note",
        "he is slow",
        "+6",
        "lap",
        "start the clock",
        "+30",
        "stop the clock",
        "+2",
        "start the clock",
    )
    assert ("he is slow", Kind.NOTE) == (run.marks[0].text, run.marks[0].kind)
    assert [Sound(CLIP, (), 4.0)] == list(run.sounds)
    assert [("Whole run", 42.0), ("Lap 1", 10.0), ("Clock 1", 30.0), ("Clock 2", None)] == [
        (one.name, one.took_s) for one in run.measures
    ]


def test_the_score_follows_from_its_rules() -> None:
    """A point, half a point, none; what was not seen does not count, and no critical error is in it."""
    (run,) = runs_of("go", "gauge done", "spare prompted", "kit missed", "consent not seen", "unsafe")
    assert run.score is not None
    assert (1.5, 3.0) == (run.score.got, run.score.of)


def test_a_drill_that_never_began() -> None:
    """One empty run, so that there is a page to read."""
    (run,) = runs_of("trainee anna")
    assert ("Anna", (), ()) == (run.trainee, run.marks, run.steps)


def test_cut_off() -> None:
    """It is said that the rest is missing, and that steps without a mark are not judged."""
    (run,) = runs_of("go", "gauge done")
    assert "This drill was cut off: what came after is not in it." in run.notices
    assert any(notice.endswith("steps have no mark: nothing is said of them.") for notice in run.notices)
