"""What is said about each event. The golden file holds a whole session as it is read and heard.

To write it anew after a wording was changed on purpose: GOLDEN=write pytest tests/say/test_wording.py
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from handsfree.care import events as e
from handsfree.care.checklist import Step
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.say import wording
from handsfree.say.wording import sentence
from handsfree.say.wording_left import still_open
from handsfree.say.wording_places import filled
from handsfree.testing.dialogue import START
from tests.dialogues import ORDER, TO_NEEDLE, WHOLE, shipped, told
from tests.golden.read import golden

AID_STATION = (*WHOLE, "end session", "yes end it")
"""A litre over eight hours at twenty drops a millilitre, from the order to the running line."""

SILENT = frozenset(
    {
        e.SpeechUnderstood,  # its answer is said
        e.SpeechWavered,  # it is asked which, or to say it again
        e.ChoiceMade,  # what was chosen is said
        e.Announced,
        e.Played,
        e.PlayingFailed,
        e.BranchChosen,  # its finding is said
        e.StepsReopened,  # its cause is said
        e.StopLifted,  # the next question is said
        e.ValueProposed,  # it is read back
        e.CountDropped,  # what follows from the number is said
        e.Held,  # silence is the answer
        e.MannerChanged,  # the corridor says it, already in the new manner
        e.SoundSynchronised,  # nobody wants to know
        e.SoundMissed,  # the page shows it
        e.SoundStopped,  # the session's end is said
        e.ReminderDropped,  # what took its ground is said
        e.AnswerUsed,  # its values are read back
        e.LineResumed,  # what comes next names it
    }
)
"""Events that say nothing of their own."""

DRILLS = frozenset(kind for kind in e.EVENTS if kind.__module__ == "handsfree.care.events.drill")
"""Events of a drill alone: tests/say/test_wording_drill.py."""

PRACTICE = frozenset(kind for kind in e.EVENTS if kind.__module__ == "handsfree.care.events.practice")
"""Events of practice alone: tests/care/practice."""


@pytest.mark.parametrize(
    "kind", [kind for kind in e.EVENTS if kind not in DRILLS | PRACTICE], ids=lambda kind: kind.__name__
)
def test_each_event_is_said_or_silent_on_purpose(kind: type) -> None:
    """An event has words, or stands in the list of those that need none."""
    assert (kind in wording._SENTENCES) != (kind in SILENT)


def test_golden_session() -> None:
    """The whole dialogue reads as it did."""
    read = "\n".join(told(*AID_STATION).lines) + "\n"
    assert golden("aid_station.txt", read) == read


def test_sentences_are_short() -> None:
    """But for the cautions at the start, nothing said in one piece is longer than forty words."""
    long = [line for line in told(*AID_STATION).said[1:] if len(line.split()) > 40]
    assert long == []


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        (6, "Still open: a, b, c, d, e, f."),
        (7, "Still open: a, b, c, d, e, f, and one more."),
    ],
)
def test_six_names_at_the_most(steps: int, said: str) -> None:
    """More than that are counted."""
    assert said == still_open(tuple("abcdefg"[:steps]))


def test_units_are_in_full() -> None:
    """No unit is said as a symbol, and nobody hears the word error."""
    spoken = " ".join(told(*AID_STATION).said)
    assert re.findall(r"\b(?:mL|gtt|ml|min|mcg|error)\b", spoken) == []


@pytest.mark.parametrize("step", shipped().steps, ids=lambda step: step.name)
def test_every_text_of_a_step_can_be_said(step: Step) -> None:
    """What to do, how and why are said whatever is known; no place stays unfilled."""
    for session in (Session(shipped(), START), told(*WHOLE).session):
        at = replace(session, step=step.name, mode=Mode.WALKING, sharp_open=False)
        opened = sentence(e.StepOpened(step.name), at, {})
        texts = [opened, *(sentence(e.Told(topic), at, {}) for topic in ("how", "why", "where"))]
        assert all(texts)
        assert not [text for text in texts if "{" in text]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Set {drop_rate}. One drop every {seconds_per_drop}. In 15 s, {count_15}.", "Set drop rate open."),
        ("Set {drop_rate}. Look at the chamber. {count_15}.", "Set drop rate open. Look at the chamber."),
        (
            "{count}. In {limb}, {order_fluid}.",
            "count open. In limb open, sodium chloride zero point nine percent.",
        ),
    ],
)
def test_what_is_open_is_said_once(text: str, said: str) -> None:
    """Of further sentences of which nothing is known none is said."""
    assert said == filled(text, told(*ORDER[:3]).session)


@pytest.mark.parametrize(
    ("event", "said"),
    [
        (e.StepOpened("advanced"), ""),
        (e.StepClosed("flash", words="flash"), ""),
        (e.CueFired("tie", "Tourniquet, one minute.", False, START), ""),
        (e.SpeechNotUnderstood("cough"), ""),
        (e.CueFired("tie", "Warning.", True, START), "Warning."),
        (e.CueFired("tie", "Warning.", True, START, 75), "Warning. Seventy five seconds late."),
        (e.CommandRefused("The needle comes first."), "The needle comes first."),
        (
            e.Told("where"),
            "Phase six of nine, Cannulate. Look for blood in the chamber: say flash, or no flash.",
        ),
    ],
    ids=repr,
)
def test_silence_while_a_sharp_is_open(event: e.Event, said: str) -> None:
    """Only answers, refusals and urgent cues are spoken."""
    session = told(*TO_NEEDLE, "sharp scratch").session
    assert said == sentence(event, session, {})
