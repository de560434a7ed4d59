"""More than one line or patient: named by the user, each with its own steps and reminders."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.care.decide import resume
from handsfree.care.lines import evolve_lines
from handsfree.care.listening import listen
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.record import CODEC, load
from handsfree.say.wording import sentence
from handsfree.shelf import emergencies, policy_from
from handsfree.testing.dialogue import SESSION, START, Talk
from handsfree.testing.disjoint import overlap
from tests.dialogues import TO_NEEDLE, WHOLE, lexicon, shipped, told

DONE = "Every step is done. Say end session to finish."
COUNT = "Count the drops. Do not move the clamp while you count."
TWO = (*WHOLE, "this is bed one", "new patient bed two")
"""The line of bed one runs since 08:01; bed two is at its first step."""

BOTH = (*TWO, *WHOLE)
"""Both run; bed two, since 08:02, is at hand."""


def lines(*script: str, after: tuple[str, ...] = TWO) -> Talk:
    return told(*script, after=after, intervals=policy_from("common").intervals)


TURN = "remind me in five minutes to turn him"

DIALOGUES = (
    (
        "the first is named before another begins",
        WHOLE,
        (
            "bed two",
            "new patient bed two",
            "this is bed one",
            "new line bed one",
            "new patient bed two",
            "where am i",
        ),
        (
            "There is no other line yet. Say new line, and its name.",
            "Name the one at hand first, for example: this is bed one.",
            "Bed one.",
            "There is bed one already. Say its name to go on there.",
            "Bed two. Check two identifiers, or give the tag number.",
            "Bed two. Phase one of nine, Order and patient. Check two identifiers, or give the tag number.",
        ),
    ),
    (
        "a name alone switches, and says what is asked there; another name is not there",
        TWO,
        ("two identifiers", "bed one", "back to bed two", "bed three", "bed two"),
        (
            "Two identifiers. Which fluid is ordered?",
            f"Bed one. {DONE}",
            "Bed two. Which fluid is ordered?",
            "There is no bed three yet. Say new patient bed three, or new line bed three.",
            "Which fluid is ordered?",
        ),
    ),
    (
        "a reminder says whose it is; the answer goes to the only one that can be meant",
        TWO,
        ("+900", "42 in sixty", "two identifiers"),
        (
            f"Bed one: {COUNT}",
            f"Bed one: Forty two drops in sixty seconds. {DONE}",
            "Two identifiers. Which fluid is ordered?",
        ),
    ),
    (
        "with its name it is answered for, and one stays where one was",
        TWO,
        (
            "bed one site is fine",
            "bed one how long on the bag",
            "bed one the patient is a child",
            "where am i",
        ),
        (
            f"Bed one: Site is fine. {DONE}",
            "Bed one: By the rate, about one thousand millilitres left. Empty in eight hours.",
            "Bed one: Noted: child. For a child confirm the weight, and ask for a burette or a pump.",
            "Bed two. Phase one of nine, Order and patient. Check two identifiers, or give the tag number.",
        ),
    ),
    (
        "what begins something there takes one there",
        TWO,
        ("bed one change the bag", "saline", "where am i"),
        (
            "Bed one: Bag change. Which fluid is ordered next?",
            "Sodium chloride zero point nine percent. Correct?",
            "Bed one. Bag change. Phase one of three, Order. Which fluid is ordered next?",
        ),
    ),
    (
        "an answer that both may want is asked about, and answered by the name",
        BOTH,
        ("+900", "42 in sixty", "bed one", "42 in sixty"),
        (
            f"Bed one: {COUNT}",
            f"Bed two: {COUNT}",
            "For bed two, or bed one?",
            f"Bed one: Forty two drops in sixty seconds. {DONE}",
            f"Forty two drops in sixty seconds. {DONE}",
        ),
    ),
    (
        "or by its place, or not at all",
        BOTH,
        ("+900", "site's fine", "42 in sixty", "neither", "42 in sixty", "the first", "what's next"),
        (
            f"Bed one: {COUNT}",
            f"Bed two: {COUNT}",
            f"Site's fine. {DONE}",
            "For bed two, or bed one?",
            DONE,
            "For bed two, or bed one?",
            f"Forty two drops in sixty seconds. {DONE}",
            "Next: Count the drops in one hour.",
        ),
    ),
    (
        "a reminder done: which, where both wait",
        BOTH,
        (
            *(
                "remind me in five minutes to turn him",
                "bed one remind me in five minutes to turn him",
                "+300",
            ),
            *("timer done", "bed one", "timer done"),
        ),
        (
            "In five minutes: turn the patient.",
            "Bed one: In five minutes: turn the patient.",
            "Bed two: Turn the patient. Bed one: Turn the patient.",
            "For bed two, or bed one?",
            "Bed one: Done: turn the patient.",
            "Done: turn the patient.",
        ),
    ),
    (
        "undo belongs to the line at hand",
        TWO,
        ("two identifiers", "bed one", "undo", "bed two", "undo"),
        (
            "Two identifiers. Which fluid is ordered?",
            f"Bed one. {DONE}",
            "Taken back. Tell the patient what to report: pain, swelling, wet dressing, feeling unwell.",
            "Bed two. Which fluid is ordered?",
            "Taken back. Check two identifiers, or give the tag number.",
        ),
    ),
    (
        "switching away from a read-back takes nothing of it",
        (*TWO, "two identifiers"),
        ("saline", "bed one", "bed two"),
        (
            "Sodium chloride zero point nine percent. Correct?",
            f"Not confirmed. Nothing was changed. Bed one. {DONE}",
            "Bed two. Which fluid is ordered?",
        ),
    ),
    (
        "nobody walks away from an open sharp",
        (*TWO, *TO_NEEDLE, "sharp scratch"),
        ("bed one", "bed one site is fine", "new patient bed three", "needle away"),
        (
            "The needle comes first.",
            "The needle comes first.",
            "The needle comes first.",
            "Needle away. Look for blood in the chamber: say flash, or no flash.",
        ),
    ),
)
"""What is shown, the lines before, further lines, and what is said to those."""


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == lines(*script, after=after).said


@pytest.mark.parametrize("step", [step.name for step in shipped().steps])
def test_no_sentence_is_two_commands(step: str) -> None:
    """With another line running beside it, at any step: names, replies and checklists are disjoint."""
    (other,) = lines().session.others
    now = Session(shipped(), START, step=step, name="bed two", others=(other,))
    grammar = lexicon().grammar(listen(now))
    assert overlap(grammar) is None


@pytest.mark.parametrize(
    "said",
    ["bed one", "go to bed one", "back to bed one", "go back to bed one", "take bed one", "now bed one"],
)
def test_ways_to_switch(said: str) -> None:
    """The name, with or without a word before it."""
    assert lines(said).last == f"Bed one. {DONE}"


@pytest.mark.parametrize(
    "name", ["left arm", "right leg", "left line", "cot three", "patient two", "tent four"]
)
def test_names(name: str) -> None:
    """Beds, patients, sides: from a list, and led by in the same way."""
    talk = lines(f"new line {name}", "bed one", f"{name} two identifiers", f"{name} tag twelve", name)
    assert talk.said[0].startswith(name.capitalize())
    assert talk.session.name == name


def test_silence_holds_for_all_lines() -> None:
    """What is due of another line waits while silence is kept, or a read-back for its answer."""
    assert lines("stop", "+1199").said == ()
    assert lines("stop", "+1200").said == (f"Bed one: Count the drops. Five minutes late. {COUNT[17:]}",)
    confirming = lines("two identifiers", "+885", "saline", "+20", "correct", "+1")
    assert "Bed one: Count" not in confirming.said[-2]
    assert f"Bed one: {COUNT}" in confirming.said[-1]


def test_what_comes_back_from_the_record() -> None:
    """Both lines, each where it was; the events between the markers are the other line's."""
    talk = lines("two identifiers", "+900", "42 in sixty", "bed one change the bag", "saline", after=TWO)
    kept = load(talk.journal, SESSION, emergencies())
    assert kept.session == talk.session
    types = [row.type for row in talk.journal.read(SESSION)]
    begin, end = types.index("LineAside"), types.index("LineResumed")
    assert "ReminderDue" in types[begin:end]
    assert [one.name for one in (talk.session, *talk.session.others)] == ["bed one", "bed two"]


def test_cut_off_with_two_lines() -> None:
    """What fell due meanwhile is said first, of each line; then the step at hand."""
    talk = lines("two identifiers", after=TWO)
    at, now, said = START + timedelta(hours=5), talk.session, []
    for event in resume(now, e.SessionResumed("typed", False), at):
        now = evolve_lines(now, event, at)
        said.append(sentence(event, now, {}))
    spoken = [text for text in said if text]
    assert spoken[0] == "Going on with bed two, Peripheral I V."
    assert spoken[1] == "Bed one:"
    assert spoken[2].startswith("Site check. Fifty nine minutes late.")
    assert spoken[3].startswith("Count the drops. Four hours forty four minutes late.")
    assert spoken[-1] == "Which fluid is ordered?"


def test_a_clock_that_was_set_back_moves_every_line() -> None:
    """The reminders of a line that is not at hand keep their distance too."""
    talk = lines(after=TWO)
    (before,) = talk.session.others
    after = evolve_lines(talk.session, e.SessionResumed("typed", False, 0, 3600), START)
    moved = [
        one.due - other.due for one, other in zip(before.reminders, after.others[0].reminders, strict=True)
    ]
    assert set(moved) == {timedelta(hours=1)}


def test_the_end_ends_all() -> None:
    """The record of each is read; no line is left over, and nothing is due any more."""
    talk = lines("end session", "yes end it")
    assert talk.last.startswith("Session ended. Bed two: Still open: patient, order fluid, order volume,")
    assert "and forty nine more. Bed one: Ordered: sodium chloride" in talk.last
    assert talk.last.endswith("Every step is done.")
    assert {one.mode for one in (talk.session, *talk.session.others)} == {Mode.OVER}


def events(talk: Talk, kind: type[e.Event]) -> list[e.Event]:
    """What was kept of one kind."""
    decoded = [CODEC.decode(row) for row in talk.journal.read(SESSION)]
    return [event for event in decoded if isinstance(event, kind)]


def test_nothing_is_noted_where_it_is_unclear() -> None:
    """While it is asked which line was meant, no reminder of either is answered."""
    talk = lines("+900", "42 in sixty", after=BOTH)
    assert talk.session.mode is Mode.CHOOSING
    assert events(talk, e.ReminderAnswered) == []
