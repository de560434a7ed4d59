"""The table of rules: every cell of it, and the chart that is drawn from it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from itertools import product

import pytest

from handsfree.care import events as e
from handsfree.care.chart import chart
from handsfree.care.choices import Choice
from handsfree.care.commands import Say
from handsfree.care.decide import decide
from handsfree.care.flow_by_ear import Window
from handsfree.care.listening import listen
from handsfree.care.questions.question import Asked
from handsfree.care.reminders.bag import Bag
from handsfree.care.reminders.reminder import Reminder
from handsfree.care.rules import ANSWERS, OPEN, OTHERS, SURE, Mode, commands
from handsfree.care.session import Proposal, Session
from handsfree.hear.typed_words import typed_words
from handsfree.testing.dialogue import START
from tests.dialogues import lexicon, shipped

ONE_EACH = {
    "leave": "cancel this check",
    "line": "bed two",
    "line_named": "this is bed four",
    "line_begun": "new patient bed five",
    "next": "next",
    "back": "go back",
    "repeat": "say that again",
    "how": "how",
    "why": "why",
    "where": "where am i",
    "left": "what's left",
    "read_record": "read the record",
    "skip": "skip this step",
    "undo": "scrub that",
    "help": "what can i say",
    "pause": "stop listening",
    "listen": "listen again",
    "stop": "hang on",
    "carry_on": "carry on",
    "shorten": "critical steps only",
    "new_order": "new order",
    "correct": "that's correct",
    "wrong": "wrong",
    "first": "the first",
    "second": "the second",
    "chosen": "i said eighteen",
    "override": "go on anyway",
    "reason": "it's not needed",
    "remind": "remind me in ten minutes to turn him",
    "upcoming": "what's next",
    "case": "the patient is a child",
    "reminded": "timer done",
    "later": "again in ten minutes",
    "not_needed": "the reminder is not needed",
    "level": "two hundred left in the bag",
    "bag_asked": "how long on the bag",
    "given_asked": "how much has gone in",
    "bag_changed": "the bag is changed",
    "tubing_changed": "new tubing is on",
    "question": "how long will 500 mils last at 75 an hour",
    "bare_question": "one litre over eight hours and fifteen drop set",
    "count": "nine drops in fifteen seconds",
    "follow_up": "and on a sixty set",
    "finish_asked": "when will it finish",
    "keep_open": "keep the vein open",
    "completion": "three hours to go",
    "use_that": "use that",
    "beat": "start ticking",
    "beat_off": "stop ticking",
    "faster": "a bit faster",
    "slower": "slower",
    "count_drops": "count for thirty seconds",
    "just_drops": "i counted forty two",
    "louder": "speak up",
    "softer": "not so loud",
    "faster_speech": "faster speech",
    "slower_speech": "speak a bit slower",
    "other_voice": "another voice",
    "end": "end session",
    "end_it": "yes end it",
}
"""By command: a sentence that says it."""

FLOW = "flow; volume=1000 mL; time=480 min"
VALUES = {
    **{"chosen": "18", "remind": "10/turn the patient", "case": "child", "later": "10", "level": "200"},
    **{"line": "bed two", "line_named": "bed four", "line_begun": "bed five"},
    "question": FLOW,
    "bare_question": FLOW,
    "count": "9/15",
    "follow_up": "drop factor=60 gtt/mL",
    "completion": "time left=180 min",
    "count_drops": "30",
    "just_drops": "42",
}
"""What the sentence of a command that takes a value is read as."""

DUE = START + timedelta(seconds=30)
SIXTEEN = Say("just_gauge", "", reason="16")

COMMANDS = tuple(rule for rule in OPEN if rule not in OTHERS)


def in_mode(mode: Mode) -> Session:
    """A session at the question for the cannula, with what a mode needs: bag, beat, reminder."""
    session = Session(
        shipped(),
        START,
        step="gauge",
        mode=mode,
        since={"tubing": START, "bag": START},
        asked=Asked(FLOW, answered=True),
        bag=Bag(Fraction(1000), Fraction(500), START, Fraction(125)),
        reminders=(Reminder("own", START, START, said=1),),
        under=Session(shipped(), START),
        rate=e.RateComputed(Fraction(1000), Fraction(480), Fraction(125), Fraction(20), Fraction(125, 3)),
        beat=Fraction(42),
        window=Window(30, DUE, over=True),
        name="bed one",
        others=(Session(shipped(), START, name="bed two"),),
    )
    match mode:
        case Mode.CONFIRMING:
            return replace(session, proposal=Proposal({"gauge": ("gauge", "18")}, DUE, asked=True))
        case Mode.CHOOSING:
            return replace(session, choice=Choice((Say("just_gauge", "", reason="18"), SIXTEEN), DUE))
        case Mode.ASKING:
            return replace(session, asked=Asked(FLOW, "drop factor", DUE))
        case Mode.STOPPED:
            return replace(session, stop=e.StopRaised("gauge", "disagrees", "gauge", "18", "gauge", "20"))
        case Mode.REASONING:
            return replace(session, reason_for="skip")
        case _:
            return session


def heard(mode: Mode, said: str) -> tuple[str, ...]:
    """The public rules that the grammar of a mode finds in a sentence."""
    readings = lexicon().grammar(listen(in_mode(mode))).match(typed_words(said))
    return tuple(node.rule for node in readings)


def test_one_sentence_for_each_command() -> None:
    """The sentences below visit every row of the table."""
    assert set(ONE_EACH) == set(COMMANDS)


@pytest.mark.parametrize(("mode", "rule"), [*product(Mode, ONE_EACH)], ids=str)
def test_heard_if_and_only_if_open(mode: Mode, rule: str) -> None:
    """A command is in the grammar of a mode exactly where the table opens it."""
    if mode is Mode.OVER:
        assert commands(mode) == ()
    else:
        assert heard(mode, ONE_EACH[rule]) == ((rule,) if mode in OPEN[rule] else ())


@pytest.mark.parametrize("mode", [mode for mode in Mode if mode is not Mode.OVER])
def test_answers_and_emergencies(mode: Mode) -> None:
    """Answers are heard where the table opens them, emergencies in every mode."""
    assert heard(mode, "green eighteen") == (("report",) if mode in OPEN[ANSWERS] else ())
    assert heard(mode, "needle stick") == ("needle_stick",)


@pytest.mark.parametrize(("mode", "rule"), [*product(Mode, COMMANDS)], ids=str)
def test_each_cell_is_decided(mode: Mode, rule: str) -> None:
    """Every command is decided in every mode: done where it is open, refused in words where it is not."""
    events = decide(in_mode(mode), Say(rule, ONE_EACH[rule], reason=VALUES.get(rule, "")), START)
    if mode is Mode.OVER:
        assert events == ()
    elif mode in OPEN[rule]:
        assert isinstance(events[0], e.SpeechUnderstood)
        assert len(events) > 1
        assert e.CommandRefused("That makes no sense now.") not in events
    else:
        assert isinstance(events[-1], e.CommandRefused)


def test_doubt_names_known_commands() -> None:
    """Each command that needs more confidence than others is in the table."""
    assert set(SURE) <= set(COMMANDS)


def test_chart_shows_every_mode_and_command() -> None:
    """The chart names each mode, and each command in the note of each mode that opens it."""
    notes = {
        part.split("\n", 1)[0].strip(): part.split("end note")[0]
        for part in chart().split("note right of")[1:]
    }
    drawn = {
        (mode.value, rule)
        for mode, rule in product(Mode, OPEN)
        if f" {rule.replace('_', ' ')}," in f"{notes.get(mode.value, '').strip()},".replace("\n", " ")
    }
    assert drawn == {(mode.value, rule) for rule, modes in OPEN.items() for mode in modes}
    assert all(f"{mode.value}" in chart() for mode in Mode)
