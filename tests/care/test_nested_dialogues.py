"""A checklist that begins over the session, and the way back to the step where one was."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.care.decide import resume
from handsfree.care.evolution import evolve
from handsfree.care.nesting import beginnable
from handsfree.record import CODEC, load
from handsfree.say.wording import sentence
from handsfree.shelf import emergencies, policy_from
from handsfree.testing.dialogue import SESSION, START, Talk
from tests.dialogues import TO_NEEDLE, TO_RUN, TO_SECURE, WHOLE, told

DONE = "Every step is done. Say end session to finish."
SITE = ("no swelling no leak not cold not pale not numb", "no pain no redness not hard no cord no fever")
SITE = (*SITE, "noted", "dressing is clean", "it's running")
BAG = (
    *("saline", "correct", "500 mils", "correct", "sodium chloride 0.9 percent", "expires june 2033"),
    *("it's clear", "clamp shut", "spiked", "+60", "no air", "clamp open"),
)
OUT = ("gloved", "clamp closed", "it's out", "tip is whole", "+120", "bleeding stopped", "covered")
CHILD = ("the patient is a child", "+900", "42 in sixty", "+2700")
"""The site is to be looked at every hour, and the first hour is over."""

TO_TOLD = (*WHOLE[:-1],)
"""The line runs, and the patient is still to be told."""

TOLD = "Tell the patient what to report: pain, swelling, wet dressing, feeling unwell."


def running(*script: str, after: tuple[str, ...] = WHOLE) -> Talk:
    """A dialogue on the running line, 1000 mL over 8 h; it runs since 08:01."""
    return told(*script, after=after, intervals=policy_from("common").intervals)


DIALOGUES = (
    (
        "begun by voice, walked through, and back to the very step with its words",
        TO_TOLD,
        ("check the site", *SITE),
        (
            "Site check. Look and feel around the site. Any swelling?",
            "No swelling. No leak. Not cold. Not pale. Not numb. Ask: any pain at the site?",
            "No pain. No redness. Not hard. No cord. No fever."
            " Write the score down, and say noted. Phlebitis score zero.",
            "Noted. Is the dressing clean, dry and firm?",
            "Dressing is clean. Does it run, or does the lock flush?",
            f"It's running. Site check: done. {TOLD}",
        ),
    ),
    (
        "steps underneath are not heard, emergencies are",
        TO_TOLD,
        ("site check", "patient is told", "needle stick", "say again"),
        (
            "Site check. Look and feel around the site. Any swelling?",
            "Site check is open: go on with it, or say cancel the check.",
            "Needle stick. Make the sharp safe. Wash with soap and water. Report it at once."
            " Follow local protocol.",
            "Needle stick. Make the sharp safe. Wash with soap and water. Report it at once."
            " Follow local protocol.",
        ),
    ),
    (
        "where, what is left, silence",
        TO_TOLD,
        ("site check", "where am i", "what's left", "stop", "no swelling", "carry on"),
        (
            "Site check. Look and feel around the site. Any swelling?",
            "Site check. Phase one of three, Around the site. Look and feel around the site. Any swelling?",
            "Still open: swelling, leak, cold, pale, numb, pain, and seven more.",
            "Going on. Look and feel around the site. Any swelling?",
        ),
    ),
    (
        "left half-way: what is open is named, and undo leads back in, and out again",
        TO_TOLD,
        ("site check", "no swelling", "cancel this check", "undo", "undo", "undo", "patient is told"),
        (
            "Site check. Look and feel around the site. Any swelling?",
            "No swelling. Any leak?",
            f"Site check: left. Still open: leak, cold, pale, numb, pain, redness, and six more. {TOLD}",
            "Taken back. Any leak?",
            "Taken back. Look and feel around the site. Any swelling?",
            f"Taken back. {TOLD}",
            f"Patient is told. {DONE}",
        ),
    ),
    (
        "one over another, and the same not twice",
        TO_TOLD,
        ("change the bag", "site check", "change the bag", "cancel the check", "cancel the check"),
        (
            "Bag change. Which fluid is ordered next?",
            "Site check. Look and feel around the site. Any swelling?",
            "Bag change is open already.",
            "Site check: left. Still open: swelling, leak, cold, pale, numb, pain, and seven more."
            " Which fluid is ordered next?",
            "Bag change: left. Still open: order fluid, bag volume, bag name, bag expiry, clear, shut,"
            f" and three more. {TOLD}",
        ),
    ),
    (
        "out of a read-back that waits: nothing of it counts",
        TO_TOLD,
        ("change the bag", "saline", "leave this check", "undo"),
        (
            "Bag change. Which fluid is ordered next?",
            "Sodium chloride zero point nine percent. Correct?",
            "Bag change: left. Still open: order fluid, bag volume, bag name, bag expiry, clear, shut,"
            f" and three more. {TOLD}",
            "Taken back. Which fluid is ordered next?",
        ),
    ),
    (
        "over a stop, which is said again afterwards",
        (*TO_SECURE, "draws back", "flushes easy", "no swelling", "dressed"),
        ("two attempts", "site check", *SITE),
        (
            "Stop. You said two attempts, I counted one attempt."
            " Say it again, or go on anyway with a reason.",
            "Site check. Look and feel around the site. Any swelling?",
            "No swelling. No leak. Not cold. Not pale. Not numb. Ask: any pain at the site?",
            "No pain. No redness. Not hard. No cord. No fever."
            " Write the score down, and say noted. Phlebitis score zero.",
            "Noted. Is the dressing clean, dry and firm?",
            "Dressing is clean. Does it run, or does the lock flush?",
            "It's running. Site check: done. Stop. You said two attempts, I counted one attempt."
            " Say it again, or go on anyway with a reason.",
        ),
    ),
    (
        "no other checklist is open",
        TO_TOLD,
        ("cancel this check",),
        ("No other checklist is open. Say end session to finish.",),
    ),
    (
        "the end of the session ends both",
        TO_TOLD,
        ("site check", "end session", "yes end it"),
        (
            "Site check. Look and feel around the site. Any swelling?",
            "End the session? Say yes end it, or wrong.",
            "Site check: left. Still open: swelling, leak, cold, pale, numb, pain, and seven more."
            " Session ended. Ordered: sodium chloride zero point nine percent, one thousand millilitres,"
            " over eight hours. Rate: forty two drops a minute. Line: eighteen, one eight gauge,"
            " left forearm. One attempt. Still open: told.",
        ),
    ),
)
"""What is shown, the lines before, further lines, and what is said to those."""


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == running(*script, after=after).said


@pytest.mark.parametrize(
    ("after", "names"),
    [
        ((), ()),
        ((*TO_NEEDLE, "sharp scratch", "flash", "advanced"), ()),
        (TO_SECURE, ("site_check", "bag_change", "flush_lock", "remove_line", "handover")),
        (TO_RUN, ("site_check", "bag_change", "flush_lock", "remove_line", "handover")),
        ((*WHOLE, "site check"), ()),
        ((*WHOLE, "bag change"), ("site_check",)),
        ((*WHOLE, "take the line out", *OUT), ()),
    ],
)
def test_what_may_begin(after: tuple[str, ...], names: tuple[str, ...]) -> None:
    """Nothing before there is a line, nor after it is out; nothing beside an open sharp; none twice."""
    assert names == tuple(one.name for one in beginnable(told(*after).session))


def test_a_site_reminder_offers_the_check_and_is_answered_by_it() -> None:
    """It is not repeated while the check goes on, and its end is the answer."""
    talk = running(*CHILD, "+300", "site check", "+240", *SITE)
    offered, begun = talk.said[-7:-5]
    assert offered.endswith("Say site's fine, or what is wrong. Or step by step: site check.")
    assert begun.startswith("Site check. Look and feel")
    due = START + timedelta(hours=1, minutes=1)
    answered = e.ReminderAnswered("site", "", due, "found")
    assert answered in events(talk, e.ReminderAnswered)
    looked = START + timedelta(seconds=60 + 900 + 2700 + 300 + 240)
    dues = {one.kind: one.due for one in talk.session.reminders}
    assert dues["site"] == looked + timedelta(hours=1)


def test_a_check_that_is_broken_off_answers_nothing() -> None:
    """The reminder comes again, as if it had not been begun."""
    talk = running(*CHILD, "site check", "cancel this check", "+300")
    assert "Again: site check. Five minutes late." in talk.last
    assert not [one for one in events(talk, e.ReminderAnswered) if "site" in str(one)]


def test_a_changed_bag_begins_to_be_counted_anew() -> None:
    """The next bag, 500 mL, is full when the clamp opens; the reminder that waited is answered."""
    talk = running("ten millilitres left", "+1", "change the bag", *BAG)
    (bag,) = [talk.session.bag]
    assert bag is not None
    opened = START + timedelta(seconds=121)
    assert (bag.full_ml, bag.left_ml, bag.at) == (500, 500, opened)
    dues = {one.kind: one.due for one in talk.session.reminders}
    assert dues["bag_empty"] == opened + timedelta(hours=4)
    assert dues["bag_low"] == opened + timedelta(hours=3, minutes=30)
    assert dues["recount"] == opened + timedelta(minutes=15)
    assert dues["hang"] == START + timedelta(seconds=61) + timedelta(hours=24)
    assert [one.kind for one in events(talk, e.ReminderAnswered)] == ["bag_low"]
    assert talk.session.rate == running().session.rate


def test_the_same_order_on_the_next_bag() -> None:
    """A volume that disagrees in the other checklist leaves the rate of the line as it is."""
    talk = running("change the bag", "500 mils", "correct", "one litre")
    assert talk.session.stop is not None
    assert talk.session.rate is not None


def test_what_has_run_in_is_counted_over_bags_and_levels() -> None:
    """100 mL by the rate, 50 more by the level, then a new bag for an hour: 275 mL."""
    script = ("+2880", "850 mils left", "new bag is up with 500 mils", "+3600", "how much has gone in")
    talk = running(*script)
    assert talk.session.bag is not None
    at = START + timedelta(seconds=60 + 2880 + 3600)
    assert talk.session.bag.given(at) == 275
    assert talk.last.startswith("About two hundred seventy five millilitres in.")


def test_a_line_that_is_out_is_not_reminded_of() -> None:
    """Site, bag, set, catheter and drops are over; a timer of the user's own is not."""
    talk = running("remind me in ten minutes to turn him", "take the line out", *OUT)
    assert [one.kind for one in talk.session.reminders] == ["own"]
    assert running("bit red", after=(*WHOLE, "take the line out", *OUT)).session.since.keys() <= {"site"}


def test_a_clock_underneath_goes_on() -> None:
    """A tourniquet that was left on is warned of, whatever checklist is at hand, until it is off."""
    script = ("tourniquet on", "site check", "+125", *SITE, "tourniquet off", "+300")
    talk = running(*script, after=TO_SECURE)
    assert "Tourniquet, one minute." in talk.said
    assert "Warning. Tourniquet two minutes. Take it off." in talk.said
    assert talk.session.running() == ()


def events(talk: Talk, kind: type[e.Event]) -> list[e.Event]:
    """What was kept of one kind."""
    decoded = [CODEC.decode(row) for row in talk.journal.read(SESSION)]
    return [event for event in decoded if isinstance(event, kind)]


OPEN = (
    *("leak", "cold", "pale", "numb", "pain", "redness", "hardness", "cord", "fever", "scored"),
    *("dressing", "runs"),
)


def test_what_is_kept() -> None:
    """When it began and ended, how, and what was left open; each of its steps between."""
    talk = running("site check", "no swelling", "cancel this check")
    begun, ended = events(talk, e.ChecklistBegun | e.ChecklistEnded)
    assert begun == e.ChecklistBegun("site_check")
    assert ended == e.ChecklistEnded("site_check", "left", OPEN)
    assert events(talk, e.StepClosed)[-1] == e.StepClosed("swelling", words="no swelling")


@pytest.mark.parametrize(
    "script", [("site check", "no swelling"), ("change the bag", *BAG[:6], "site check")]
)
def test_cut_off_in_the_middle(script: tuple[str, ...]) -> None:
    """What comes back from the record is at the same step of the same checklist, and leads back out."""
    talk = running(*script, after=TO_TOLD)
    kept = load(talk.journal, SESSION, emergencies())
    assert kept.session == talk.session
    at, now, said = START + timedelta(hours=1), kept.session, []
    for event in resume(now, e.SessionResumed("typed", False), at):
        now = evolve(now, event, at)
        said.append(sentence(event, now, {}))
    assert said[0] == f"Going on with {talk.session.checklist.title}."
    assert said[-1] == talk.session.checklist.step(talk.session.step).do
    assert (now.checklist.name, now.step) == (talk.session.checklist.name, talk.session.step)
    assert [walk.checklist.name for walk in now.walks][-1] == "peripheral_iv"
