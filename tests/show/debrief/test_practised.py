"""A practice run as its debrief shows it, from the scripted runs."""

from __future__ import annotations

from handsfree.care.practice.terms import Terms
from handsfree.record import load
from handsfree.shelf import emergencies
from handsfree.show.debrief.marks import Kind, State, Who
from handsfree.show.debrief.practised import practised_run
from handsfree.show.debrief.run import Run, Sort
from handsfree.show.debrief.score import Limit
from handsfree.show.debrief.titles import title
from handsfree.testing.dialogue import SESSION, talk
from tests.care.practice.practised import words
from tests.care.practice.runs import END, upto
from tests.care.practice.test_marking import ran
from tests.dialogues import shipped


def run_of(name: str) -> Run:
    """The run of a scripted run, from its journal."""
    kept = load(ran(name).journal, SESSION, emergencies())
    return practised_run(SESSION, kept.session, kept.records)


def titles(step: str) -> str:
    return title(shipped(), step)


def test_a_perfect_run() -> None:
    """Everything is done and said, nothing was seen; all points; no moment stands alone."""
    run = run_of("perfect")

    assert (Sort.PRACTICE, (), ()) == (run.sort, run.critical, run.gaps)
    assert {(State.DONE, True, None)} == {(step.state, step.said, step.seen) for step in run.steps}
    assert run.score is not None
    assert run.score.got == run.score.of


def test_a_critical_error_stands_alone_with_its_rule_and_moment() -> None:
    """The moment, the rule's reason, and no points for the rule, which is shown with its weight."""
    run = run_of("needle_on_wet_skin")
    (needle,) = [mark for mark in run.critical if mark.kind is Kind.OUT_OF_ORDER]
    assert run.score is not None
    (rule,) = [one for one in run.score.rules if one.because == "Needle before dry."]

    assert ("Needle before dry.", "Wet or touched skin is not clean, and it stings.") == (
        needle.text,
        needle.rule,
    )
    assert (0.0, 3.0, needle.at_s) == (rule.got, rule.of, rule.at_s)
    missed = [(mark.step, mark.rule) for mark in run.critical if mark.kind is Kind.MISSED]
    assert [(titles("dry"), "Wet antiseptic does not kill, and it stings.")] == missed


def test_times_stand_against_their_targets() -> None:
    """A tie that was too long is longer than its target, whose source is told; cleaning is long enough."""
    measures = {(one.name, one.at_s): one for one in run_of("tourniquet_left_on").measures}
    ties = [one for (name, _), one in measures.items() if name == "tie is not left on"]
    (scrubbed,) = [one for (name, _), one in measures.items() if name == "scrubbed wait"]

    assert [True, False] == [one.met for one in ties]
    assert (120, Limit.AT_MOST, "2 min: WHO 2010, from memory") == (
        ties[1].target_s,
        ties[1].limit,
        ties[1].source,
    )
    assert (True, Limit.AT_LEAST) == (scrubbed.met, scrubbed.limit)


def test_faults_and_cues() -> None:
    """A fault that was met has its moment, the other none; each cue is one."""
    faults = run_of("two_faults").faults
    cues = run_of("cues").cues

    assert [True, False] == [one.met_s is not None for one in faults]
    assert ["A nudge.", "The step was told."] == [one.text for one in cues]


def decided() -> Run:
    """A run in which an instructor saw one step, did not see another, and accepts what failed."""
    script = [one.words for one in upto("sharps_box")[:5]]
    told = ("instructor saw that", "instructor did not see that spare ready", "sharp scratch")
    done = talk(
        (*script, *told, "instructor accepts that", *END),
        shipped(),
        words(),
        kind="practice",
        terms=Terms("robin"),
    )
    kept = load(done.journal, SESSION, emergencies())
    return practised_run(SESSION, kept.session, kept.records)


def test_an_instructor_decides() -> None:
    """What was seen is kept apart from what was said; what is accepted stands no longer, and who decided is
    told."""
    run = decided()
    steps = {step.name: step for step in run.steps}

    assert "robin" == run.trainee
    assert (State.DONE, True, True) == (steps["hands"].state, steps["hands"].said, steps["hands"].seen)
    assert (State.NOT_SEEN, False) == (steps["spare"].state, steps["spare"].seen)
    assert 3 == len([mark for mark in run.marks if mark.who is Who.INSTRUCTOR])
    assert ["Accepted by the instructor."] == [
        mark.text.partition(". ")[2] for mark in run.marks if "Accepted" in mark.text
    ]


def test_no_place_of_a_value_is_read() -> None:
    """Titles and reasons are whole sentences where no value is known."""
    run = run_of("silence")
    read = [*(step.title for step in run.steps), *(mark.rule for mark in run.marks)]

    assert "Open the clamp slowly and set the drop rate." in read
    assert [] == [text for text in read if "{" in text]
