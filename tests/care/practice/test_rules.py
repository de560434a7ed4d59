"""The table of rules of practice: every cell of it."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from handsfree.care import events as e
from handsfree.care.commands import Say
from handsfree.care.practice.decide import decide
from handsfree.care.practice.listening import listen
from handsfree.care.practice.rules import ANSWERS, EMERGENCIES, FAULTS, OPEN, SURE, Mode, commands
from handsfree.care.practice.session import Practice
from handsfree.hear.typed_words import typed_words
from handsfree.testing.dialogue import START
from tests.care.practice.practised import words
from tests.care.practice.test_marking import ran
from tests.dialogues import shipped

ONE_EACH = {
    "cue": "give me a hint",
    "missed": "what did i miss",
    "where": "where am i",
    "passed": "how long so far",
    "repeat": "say that again",
    "undo": "scrub that",
    "stop": "hang on",
    "saw": "instructor saw that",
    "saw_not": "instructor did not see that",
    "accept": "instructor accepts that",
    "end": "end session",
    "end_it": "yes end it",
    "wrong": "wrong",
    "louder": "speak up",
    "softer": "speak softer",
    "faster_speech": "faster speech",
    "slower_speech": "slower speech",
    "other_voice": "another voice",
}
"""By command: a sentence that says it."""

STAND_IN = {ANSWERS: "gloves on", FAULTS: "instructor no flash", EMERGENCIES: "needle stick"}
"""By row that stands for others: one of them, said."""


def in_mode(mode: Mode) -> Practice:
    """A run in which a step was said and a rule failed, so that each command has something to work on."""
    session = replace(ran("needle_on_wet_skin").session, mode=Mode.TALKING, ended=None)
    return replace(session, mode=mode, ended=START if mode is Mode.OVER else None)


def heard(mode: Mode, said: str) -> set[str]:
    """The public rules that the grammar of a mode finds in a sentence said alone."""
    readings = words().grammar(listen(in_mode(mode))).match(typed_words(said))
    return {node.rule for node in readings}


def test_one_sentence_for_each_row() -> None:
    """The sentences above visit every row of the table; what wants more confidence is in it."""
    assert {*ONE_EACH, *STAND_IN} == set(OPEN)
    assert set(SURE) <= set(ONE_EACH)


@pytest.mark.parametrize(("mode", "rule"), [*product(Mode, ONE_EACH)], ids=str)
def test_heard_if_and_only_if_open(mode: Mode, rule: str) -> None:
    """A command is in the grammar of a mode exactly where the table opens it."""
    if mode is Mode.OVER:
        assert commands(mode) == ()
    else:
        assert heard(mode, ONE_EACH[rule]) == ({rule} if mode in OPEN[rule] else set())


@pytest.mark.parametrize(("mode", "row"), [*product((Mode.TALKING, Mode.ENDING), STAND_IN)], ids=str)
def test_rows_that_stand_for_others(mode: Mode, row: str) -> None:
    """Steps, faults and emergencies are heard where the table opens their row."""
    assert bool(heard(mode, STAND_IN[row])) == (mode in OPEN[row])


@pytest.mark.parametrize(("mode", "rule"), [*product(Mode, ONE_EACH)], ids=str)
def test_each_cell_is_decided(mode: Mode, rule: str) -> None:
    """Every command is decided in every mode: done where it is open, refused in words where it is not."""
    events = decide(in_mode(mode), Say(rule, ONE_EACH[rule]), START)
    refused = e.CommandRefused("That makes no sense now.")
    if mode is Mode.OVER:
        assert events == ()
    elif mode in OPEN[rule]:
        assert isinstance(events[0], e.SpeechUnderstood)
        assert len(events) > 1
        assert refused not in events
    else:
        assert refused in events


def test_a_call_word_is_never_needed_for_steps() -> None:
    """With a call word commands need it; steps, findings, emergencies and "hang on" do not."""
    uncalled = listen(in_mode(Mode.TALKING), called=True).uncalled
    assert {"report", "stop", "needle_stick"} <= set(uncalled)
    assert not {"cue", "end", "saw"} & set(uncalled)
    assert {one.name for one in shipped().emergencies} <= set(uncalled)
