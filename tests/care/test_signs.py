"""A sign of life: once in a long silence, and only while an answer is waited for."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.care.commands import Notice, Tick
from handsfree.care.decide import decide
from handsfree.care.evolution import evolve
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.signals import Trouble
from handsfree.testing.dialogue import START
from tests.dialogues import told

AFTER_S = 90

SIGN = e.SignGiven()
ASKED = e.Played("Which fluid is ordered?")
HEARD = e.SpeechUnderstood("where", "where am i", 0.9, False)
MUMBLED = e.SpeechNotUnderstood("")


def started(after_s: int = AFTER_S) -> Session:
    """A session at its first step, which was asked for just now."""
    session = replace(told().session, timers=())
    first = e.SessionStarted("a", "a.toml", "", "vosk", False, 0, after_s)
    return evolve(evolve(session, first, START), ASKED, START)


def signs(session: Session, *happened: tuple[float, e.Event]) -> list[float]:
    """When a sign is given, in seconds from the start, in ten minutes in which this happens besides."""
    given = []
    for second in range(600):
        at = START + timedelta(seconds=second)
        for when, event in happened:
            if when == second:
                session = evolve(session, event, at)
        if session.deadline() is not None:
            for event in decide(session, Tick(), at):
                session = evolve(session, event, at)
                given += [second] if event == SIGN else []
                session = evolve(session, e.Played("I am listening."), at)
    return given


COURSES = [
    pytest.param([], [90], id="once, and not again and again"),
    pytest.param([(60, HEARD)], [150], id="from what was said last"),
    pytest.param([(60, MUMBLED), (61, ASKED)], [151], id="by either side"),
    pytest.param([(200, HEARD)], [90, 290], id="again after somebody spoke"),
    pytest.param([(10, e.Held())], [], id="silence was asked for"),
    pytest.param([(10, e.ListeningPaused())], [], id="nobody is to listen"),
    pytest.param([(10, e.SessionEnded("by voice"))], [], id="nothing is waited for"),
]


@pytest.mark.parametrize(("happened", "at"), COURSES)
def test_sign(happened: list[tuple[float, e.Event]], at: list[float]) -> None:
    """In this course of events, signs are given at these seconds."""
    assert at == signs(started(), *happened)


def test_no_sign_while_a_sharp_is_open() -> None:
    """A needle wants all attention."""
    assert [] == signs(replace(started(), sharp_open=True))


def test_off_by_policy() -> None:
    """With 0 there is never a sign."""
    assert [] == signs(started(0))


@pytest.mark.parametrize("trouble", Trouble)
@pytest.mark.parametrize("mode", [mode for mode in Mode if mode is not Mode.OVER])
def test_trouble_with_the_sound_is_kept(trouble: Trouble, mode: Mode) -> None:
    """Whatever the session waits for, that a trouble begins and is over is in the record."""
    session = replace(started(), mode=mode)

    assert (e.SoundTroubled(trouble),) == decide(session, Notice(trouble), START)
    assert (e.SoundMended(trouble),) == decide(session, Notice(trouble, over=True), START)
