"""A guided session as a run, from dialogues."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from handsfree.care.session import Session
from handsfree.record import load
from handsfree.shelf import emergencies
from handsfree.show.debrief.guided import guided_runs
from handsfree.show.debrief.marks import Kind, State
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.testing.dialogue import CLIP, SESSION, START
from tests.dialogues import FLUID, ORDER, TO_FLUID, TO_NEEDLE, WHOLE, told


def run_of(*script: str) -> tuple[Run, Session]:
    """The run of a dialogue, from its journal."""
    kept = load(told(*script).journal, SESSION, emergencies())
    (run,) = guided_runs(SESSION, kept.session, kept.records)
    return run, kept.session


def test_a_whole_session() -> None:
    """Every step is done, nothing is missed or stands alone, and what a value meant is in words."""
    run, session = run_of(*WHOLE, "end session", "yes end it")

    assert (Sort.GUIDE, "Peripheral I V", START, ()) == (run.sort, run.title, run.began, run.notices)
    assert {State.DONE} == {step.state for step in run.steps}
    assert () == run.critical == run.gaps
    assert len([step for step in session.checklist.steps if session.applies(step)]) == len(run.steps)
    assert ["Write the label: the date, the time, the gauge, the site, and your initials."] == [
        step.title for step in run.steps if step.name == "labelled"
    ]
    assert ["one thousand millilitres"] == [step.value for step in run.steps if step.name == "order_volume"]


def test_times_count_from_the_start() -> None:
    """A step that was closed a minute after the start has that minute."""
    run, _ = run_of("+60", "two identifiers")

    assert [60.0] == [step.at_s for step in run.steps if step.at_s is not None]
    assert 60.0 == run.length_s


def test_local_time() -> None:
    """The start is the same moment, as the clock on the wall showed it."""
    kept = load(told("two identifiers").journal, SESSION, emergencies())

    (run,) = guided_runs(SESSION, replace(kept.session, utc_offset_min=120), kept.records)
    assert (START, timedelta(hours=2)) == (run.began, run.began.utcoffset())


@pytest.mark.parametrize(
    ("script", "kind", "text", "critical"),
    [
        ((*ORDER, "skip", "because no time"), Kind.SKIPPED, "no time", False),
        (("skip", "because no time"), Kind.SKIPPED, "no time", True),
        ((*TO_FLUID, "dextrose five percent"), Kind.STOP, "dextrose five percent. Stop.", True),
        ((*TO_FLUID, *FLUID[:1], "expires june 2030"), Kind.STOP, "Stop. Out of date", False),
        (("needle stick",), Kind.EMERGENCY, "needle stick", True),
        ((*TO_NEEDLE, "no flash"), Kind.NOTE, "no flash", False),
        (("normal saline", "correct", "two identifiers", "lock only"), Kind.NOTE, "lock only", False),
    ],
)
def test_moments(script: tuple[str, ...], kind: Kind, text: str, critical: bool) -> None:
    """What is more than a step closed becomes a mark with what was said at it."""
    run, _ = run_of(*script)

    mark = run.marks[-1]
    assert (kind, critical) == (mark.kind, mark.critical)
    assert text in mark.text


def test_cut_off_is_told() -> None:
    """A session that nobody ended says so."""
    assert 1 == len(run_of("two identifiers")[0].notices)
    assert () == run_of("two identifiers", "end session", "yes end it")[0].notices


def test_both_sides_are_captions() -> None:
    """What was understood stands with its speaker; what was not, in brackets."""
    run, _ = run_of("two identifiers", "mumble jumble")

    assert ["two identifiers", "(mumble jumble)"] == [
        cue.text for cue in run.captions if cue.speaker == "User"
    ]
    assert all(0 <= cue.start_ms <= cue.end_ms for cue in run.captions)


def test_spoken_reasons_are_heard_where_they_were_said() -> None:
    """A reason that no grammar holds is a clip that ends when it was decided on."""
    run, _ = run_of("skip", "+7", "the cat ate it")

    assert (Sound(CLIP, (), 7.0),) == run.sounds


def test_another_checklist_stands_under_its_own_heading() -> None:
    """The steps of a look at the site stand under its title and the time at which it was over, each time."""
    look = ("site check", "no swelling", "cancel the check", "+3600")
    run, _ = run_of(*WHOLE, *look, *look)
    done = [(step.phase, step.title) for step in run.besides if step.state is State.DONE]

    swelling = "Look and feel around the site. Any swelling?"
    assert [("Site check, 08:01", swelling), ("Site check, 09:01", swelling)] == done
    assert len({step.name for step in run.every_step}) == len(run.every_step)
    assert {State.DONE} == {step.state for step in run.steps}


def test_each_line_is_a_run_of_its_own() -> None:
    """Two patients: two runs from the same start, each with its own steps, moments and words."""
    talk = told(
        "this is bed one", "two identifiers", "+60", "next patient bed two", "skip", "because no time"
    )
    kept = load(talk.journal, SESSION, emergencies())
    one, two = guided_runs(SESSION, kept.session, kept.records)

    assert ("bed one", "bed two") == (one.line, two.line)
    assert (START, START, one.length_s) == (one.began, two.began, two.length_s)
    assert ["patient"] == [step.name for step in one.steps if step.state is State.DONE]
    assert ["patient"] == [step.name for step in two.steps if step.state is State.SKIPPED]
    assert ([], [(60.0, "because no time")]) == ([*one.marks], [(mark.at_s, mark.text) for mark in two.marks])
    assert "two identifiers" in [cue.text for cue in one.captions]
    assert "two identifiers" not in [cue.text for cue in two.captions]
