"""A command that is known and makes no sense now is refused in words: why, and what to do."""

from __future__ import annotations

import pytest

from tests.dialogues import ORDER, TO_FLUID, TO_NEEDLE, WHOLE, told

NO_BAG = "No bag is running yet: the order and the start come first."
NO_REMINDER = "No reminder waits for an answer. Ask: what is next."

REFUSED: tuple[tuple[tuple[str, ...], str, str], ...] = (
    ((), "site check", "Site check has to wait: no line is in yet."),
    ((), "flush the lock", "Flush of a lock has to wait: no line is in yet."),
    ((), "change the bag", "Bag change has to wait: no bag hangs yet."),
    ((), "how long on the bag", NO_BAG),
    ((), "two hundred left", NO_BAG),
    ((), "start ticking", NO_BAG),
    ((), "reminder done", NO_REMINDER),
    (WHOLE, "reminder done", NO_REMINDER),
    ((), "correct", "Nothing waits to be confirmed."),
    ((), "draws back", "No step waits for that now."),
    ((), "bed two", "There is no other line yet. Say new line, and its name."),
    ((), "cancel the check", "No other checklist is open. Say end session to finish."),
    ((), "use that", "There is no answer to go on from. Ask the whole question."),
    ((), "second one", "There is nothing to choose from now."),
    ((*WHOLE, "site check"), "site check", "Site check is open already."),
    (
        (*WHOLE, "site check"),
        "handover",
        "Handover has to wait. Finish Site check first, or say cancel the check.",
    ),
    (
        (*WHOLE, "site check"),
        "gloved",
        "Site check is open: go on with it, or say cancel the check.",
    ),
    (
        (*WHOLE, "this is bed one", "new patient bed two"),
        "bed two site check",
        "Site check has to wait: no line is in yet at bed two.",
    ),
    (
        (*WHOLE, "this is bed one", "site check", "new patient bed two"),
        "bed one site's fine",
        "Bed one: Site check is open: go on with it, or say cancel the check.",
    ),
    ((*ORDER[:1], "normal saline"), "site check", "First say correct, or wrong."),
    ((*TO_FLUID, "lactated ringer's"), "next", "This step is stopped. Answer again, or say new order."),
    ((*TO_NEEDLE, "sharp scratch"), "site check", "The needle comes first."),
)


@pytest.mark.parametrize(("before", "said", "why"), REFUSED, ids=[one for _, one, _ in REFUSED])
def test_why(before: tuple[str, ...], said: str, why: str) -> None:
    """One sentence says why not; nothing else has changed, and it counts as understood."""
    was = told(after=before).session
    talk = told(said, after=before)

    assert [why] == list(talk.said)
    assert (was.mode, was.step, was.marks) == (talk.session.mode, talk.session.step, talk.session.marks)
    assert 0 == talk.session.misses


def test_silence_is_kept() -> None:
    """While silence or a pause was asked for, nothing is said to a command either."""
    for quiet in ("hang on", "stop listening"):
        assert () == told("site check", "correct", after=(quiet,)).said


def test_a_reason_is_free_words_though_they_are_a_command() -> None:
    """What is said when a reason is waited for is one, whatever else it could be."""
    talk = told("skip", "site check")
    assert "Site check has to wait" not in talk.last
