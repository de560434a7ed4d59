"""The site, sign by sign: what is said of each, and the score that follows."""

from __future__ import annotations

from itertools import combinations

import pytest

from handsfree.care import events as e
from handsfree.care.scores import score_told
from handsfree.care.session import Mark, Session, State
from handsfree.shelf import checklist_from
from handsfree.testing.dialogue import START
from tests.care.test_checklists import read
from tests.dialogues import WHOLE, told

STOP = (
    "Stop the infusion. Local protocol usually wants it out."
    " With an irritant drug leave it in, and ask for orders."
)

STEPS = {
    "swollen": "swelling",
    "painful": "pain",
    "red": "redness",
    "hard_vein": "hardness",
    "cord_felt": "cord",
    "feverish": "fever",
}
"""By finding: the step that it answers."""

CARD = "VIP score card (uploaded ward poster), as summarised"
SCORES = [
    ((), 0, f"{CARD}: site looks healthy"),
    (("painful",), 1, f"{CARD}: one of slight pain, slight redness"),
    (("red",), 1, f"{CARD}: one of slight pain, slight redness"),
    (("painful", "red"), 2, f"{CARD}: two of pain, redness, swelling"),
    (("painful", "swollen"), 2, f"{CARD}: two of pain, redness, swelling"),
    (("red", "swollen"), 2, f"{CARD}: two of pain, redness, swelling"),
    (("painful", "red", "hard_vein"), 3, f"{CARD}: pain along the cannula, redness, hardening"),
    (("painful", "red", "hard_vein", "cord_felt"), 4, f"{CARD}: as 3, plus palpable cord"),
    (("painful", "red", "hard_vein", "cord_felt", "feverish"), 5, f"{CARD}: as 4, plus fever"),
]


def scored(found: tuple[str, ...]) -> e.ScoreTold:
    """The score after these findings, every other step of the check being closed without one."""
    checklist = checklist_from("site_check")
    marks = {step.name: Mark(State.CLOSED) for step in checklist.steps}
    marks |= {STEPS[sign]: Mark(State.CLOSED, value=sign) for sign in found}
    event = score_told(Session(checklist, START, marks=marks), START)
    assert isinstance(event, e.ScoreTold)
    return event


@pytest.mark.parametrize(("found", "score", "source"), SCORES)
def test_the_score_is_the_published_one(found: tuple[str, ...], score: int, source: str) -> None:
    """Each row of the card, by its signs; nothing goes beyond it."""
    assert (score, ()) == (scored(found).score, scored(found).beyond), source


def test_signs_that_no_row_accounts_for_are_named() -> None:
    """Any other set of signs has the highest row that it fills, and what goes beyond that is said."""
    rows = {found for found, _, _ in SCORES}
    for size in range(len(STEPS) + 1):
        for found in combinations(STEPS, size):
            told_of = scored(found)
            assert set(told_of.signs) | set(told_of.beyond) == set(found)
            assert told_of.beyond or found in rows or {"swollen", "painful", "red"} >= set(found)


def test_a_cord_alone() -> None:
    """It belongs to a higher score than the other signs make."""
    talk = told("site check", AROUND, *SIGNS, after=WHOLE)
    assert talk.last == (
        "Noted. Write the score down, and say noted. Phlebitis score one. Local protocol usually wants it"
        " watched. Cord felt goes beyond that: judge by the higher score."
    )


AROUND = "no swelling no leak not cold not pale not numb"
SIGNS = ("bit red", "no pain not hard no fever", "there's a cord")


@pytest.mark.parametrize(
    ("before", "said", "closed"),
    [
        ((), "it's swollen", "swelling"),
        (("no swelling",), "it's leaking", "leak"),
        (("no swelling", "no leak"), "the skin is cold", "cold"),
        (("no swelling", "no leak", "not cold"), "it's blanched", "pale"),
        (("no swelling", "no leak", "not cold", "not pale"), "he's tingling", "numb"),
    ],
)
def test_signs_beside_the_vein_come_first(before: tuple[str, ...], said: str, closed: str) -> None:
    """Each is answered by what local protocol usually wants, at once and whatever the score; the step is
    closed, the site counts as looked at, and the check goes on."""
    talk = told("site check", *before, said, after=WHOLE)
    assert talk.last.startswith(STOP)
    assert talk.session.mark(closed).state is State.CLOSED
    assert talk.session.since["site"] == talk.session.mark(closed).at
    assert [one.finding for one in talk.session.found] == [talk.session.value(closed)]


def test_a_sign_is_taken_back() -> None:
    """Looked at again, it is not there: the score goes by the last word."""
    talk = told(
        "site check", "no swelling no leak not cold not pale not numb", "it hurts", "no pain", after=WHOLE
    )
    assert talk.session.value("pain") == ""
    assert talk.session.mark("pain").state is State.CLOSED


def test_it_can_be_walked_through_alone() -> None:
    """Without a session around it: the same advice."""
    checklist, lexicon = read("site_check")
    assert [score.score for score in checklist.scores] == [5, 4, 3, 2, 1, 0]
    assert all(score.source for score in checklist.scores)
    assert lexicon.calls is False
