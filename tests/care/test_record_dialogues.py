"""The record, read aloud: at any time, and at the end."""

from __future__ import annotations

import pytest

from tests.dialogues import ORDER, TO_FLUID, TO_RUN, WHOLE, told

ORDERED = "Ordered: sodium chloride zero point nine percent, one thousand millilitres, over eight hours."
OPEN = " Still open: hands, gauge, spare, drop factor, kit, antiseptic, and forty two more."

READ = (
    ("nothing yet", (), "Still open: patient, order fluid, order volume, order speed, allergies"),
    ("the order", ORDER, f"{ORDERED}{OPEN}"),
    ("while a read-back waits, without its value", ("normal saline",), "Still open: patient, order fluid,"),
    (
        "rate and cannula",
        TO_FLUID,
        f"{ORDERED} Rate: forty two drops a minute. Line: eighteen, one eight gauge. Still open:",
    ),
    (
        "the whole",
        WHOLE,
        f"{ORDERED} Rate: forty two drops a minute. Line: eighteen, one eight gauge, left forearm."
        " One attempt. Every step is done.",
    ),
    ("what was left out", (*ORDER[:9], "skip because no time"), "Left out: consent. Still open:"),
    (
        "what was gone on with in spite of a stop",
        (*TO_FLUID, "saline 0.9 percent", "expires june 2030", "go on anyway because local protocol"),
        "Line: eighteen, one eight gauge. Gone on anyway: bag expiry. Still open:",
    ),
    (
        "what waits for an answer",
        ("remind me in ten minutes to turn him", "+600"),
        "Not answered: turn the patient. Still open:",
    ),
)


@pytest.mark.parametrize(("what", "script", "said"), READ)
def test_read_at_any_time(what: str, script: tuple[str, ...], said: str) -> None:
    """In a few sentences; what is asked next stays as it was."""
    talk = told("read the record", after=script)
    assert said in talk.last
    assert talk.session.step == told(*script).session.step


@pytest.mark.parametrize("words", ["read back the record", "read the record back", "what is in the record"])
def test_words_for_it(words: str) -> None:
    """Several ways to ask for the same."""
    assert told(words).last == told("read the record").last


def test_read_at_the_end() -> None:
    """A session that is ended by voice ends with its record; the tag of a patient is never said aloud."""
    last = told("tag twelve", *ORDER[1:], "end session", "yes end it").last
    assert last.startswith(f"Session ended. {ORDERED}")
    assert "twelve" not in last
    assert len(told(*TO_RUN, "read the record").last.split(".")) <= 9
