"""The board in words: what a session shows of itself at each moment."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.conducts.guide import GUIDE
from handsfree.glance import Glance, Running
from handsfree.shelf import policy_from
from handsfree.testing.dialogue import START
from tests.dialogues import ORDER, RUN, SITE, TO_RUN, TO_SITE, WATCH, WHOLE, lexicon, told


def seen(*said: str) -> Glance:
    session = told(after=said, intervals=policy_from("common").intervals).session
    return GUIDE.glance(session, lexicon().examples(GUIDE.listen(session, False)))


MOMENTS = [
    ((), "Check two identifiers, or give the tag number.", ("two identifiers",)),
    (ORDER[:2], "Sodium chloride zero point nine percent. Correct?", ("correct", "wrong")),
    (ORDER[:4], "1000 millilitres. Correct?", ("correct", "wrong")),
    (("stop",), "Silent.", ("carry on",)),
    (("stop listening",), "Not listening.", ("listen again",)),
    (("skip this",), "The reason?", ()),
    (("end session",), "End the session?", ("yes end it", "wrong")),
    (WHOLE, "Every step is done.", ("end session",)),
]


@pytest.mark.parametrize(("said", "do", "say"), MOMENTS)
def test_what_is_to_be_done(said: tuple[str, ...], do: str, say: tuple[str, ...]) -> None:
    """The step or the question, and what answers it; numbers in figures."""
    glance = seen(*said)

    assert (do, say) == (glance.do, glance.say)


def test_how_far_it_is() -> None:
    """The phase, and how many of the steps that apply are done."""
    assert "Order and patient · 1 of 55 done" == seen(*ORDER[:1]).place


def test_tie_has_its_clock() -> None:
    """From the moment it was closed; after its first cue it is urgent."""
    tied = (*TO_SITE, *SITE[:2])
    early, late = seen(*tied).clocks[0], seen(*tied, "+70").clocks[0]

    assert ("Tourniquet on", False, False) == (early.label, early.due, early.urgent)
    assert ("Tourniquet on", True) == (late.label, late.urgent)
    assert early.at == late.at


def test_wait_counts_down() -> None:
    """What must pass before the next step."""
    (clock, *_) = seen(*TO_SITE, *SITE[:6]).clocks

    assert ("Wait", True) == (clock.label, clock.due)


def test_rate_and_what_is_next_are_shown() -> None:
    """Drops a minute, seconds from drop to drop, and the reminders that the running line has."""
    glance = seen(*TO_RUN, *RUN, *WATCH)
    soonest, *_ = glance.clocks

    assert ("42 drops a minute", "one drop every 1.4 s") == glance.rate
    assert isinstance(soonest, Running)
    assert soonest.due
    assert soonest.at > START


def test_stop_is_an_alert() -> None:
    """What stops the step stands above it."""
    glance = seen(*ORDER[:3], *ORDER[3:], "gloved", "green eighteen", "green twenty")

    assert glance.alert.startswith("Stop. ")


def test_reminder_that_waits_is_an_alert() -> None:
    """The most urgent one, with what to do."""
    glance = seen(*WHOLE, f"+{int(timedelta(hours=1).total_seconds())}")

    assert glance.alert != ""
