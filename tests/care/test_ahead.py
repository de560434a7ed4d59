"""What may be said soon: the next moment of a session is known before it comes."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import reduce

import pytest

from handsfree.care.ahead import ahead
from handsfree.care.listening import listen
from handsfree.care.reminders.reminder import Reminder
from handsfree.care.rules import Mode
from handsfree.care.session import Mark, Proposal, Session, State
from handsfree.signals import Listen
from handsfree.testing.dialogue import START
from tests.dialogues import shipped

DONE = Mark(State.CLOSED)


def at(step: str) -> Session:
    """A session at a step, with all before it done."""
    names = [one.name for one in shipped().steps]
    done = shipped().steps[: names.index(step)]
    marks = {one.name: DONE for one in done}
    sharp_open = reduce(lambda before, one: one.sharp_after(before), done, False)
    return Session(shipped(), START, step=step, marks=marks, sharp_open=sharp_open)


def sounds_like(session: Session) -> Listen:
    """What may be said, whatever is asked."""
    return without_question(listen(session))


def without_question(moment: Listen) -> Listen:
    """The moment, whatever is asked."""
    return replace(moment, asks="")


@pytest.mark.parametrize(
    ("step", "after"),
    [
        ("patient", "order_fluid"),
        ("order_speed", "allergies"),
        ("consent", "hands"),
        ("sharps_box", "bag_fluid"),
        ("site", "tie"),
        ("needle", "flash"),
    ],
)
def test_the_next_step(step: str, after: str) -> None:
    """What may be said when the step at hand is done, in its phase and behind it."""
    assert sounds_like(at(after)) in set(map(without_question, ahead(at(step))))


def test_a_read_back() -> None:
    """From a question for a value: its read-back, before and after it was said, and the next question."""
    proposal = Proposal({"order_volume": ("volume", "1000")}, due=START)
    confirming = replace(at("order_volume"), mode=Mode.CONFIRMING, proposal=proposal)
    coming = set(map(without_question, ahead(at("order_volume"))))
    assert sounds_like(confirming) in coming
    assert sounds_like(replace(confirming, proposal=replace(proposal, asked=True))) in coming
    assert sounds_like(at("order_speed")) in coming
    assert sounds_like(at("order_speed")) in set(map(without_question, ahead(confirming)))


def test_nothing_is_left() -> None:
    """When all is done there is nothing to be known ahead but the same."""
    whole = replace(at("patient"), step="", marks={one.name: DONE for one in shipped().steps})
    assert [listen(whole)] == list(ahead(whole))


def test_a_reminder() -> None:
    """What answers a reminder is ready before it is said."""
    due = START + timedelta(minutes=10)
    waiting = replace(at("told"), reminders=(Reminder("own", due, due, "turn the patient"),))
    said = replace(waiting, reminders=(Reminder("own", due, due, "turn the patient", said=1),))
    assert sounds_like(said) in set(map(without_question, ahead(waiting)))
