"""What the program reminds of, and how it is answered: dialogues after the line runs."""

from __future__ import annotations

from datetime import timedelta
from functools import cache

import pytest

from handsfree.care import events as e
from handsfree.care.decide import resume
from handsfree.care.evolution import evolve
from handsfree.care.reminders.policy import Interval
from handsfree.care.session import Session
from handsfree.record import CODEC, load
from handsfree.say.wording import sentence
from handsfree.shelf import emergencies, policy_from
from handsfree.testing.dialogue import SESSION, START, Talk
from tests.dialogues import TO_NEEDLE, TO_SECURE, WHOLE, told


@cache
def common() -> tuple[Interval, ...]:
    return policy_from("common").intervals


def running(*script: str, after: tuple[str, ...] = WHOLE, policy: str = "common") -> Talk:
    """A dialogue on the running line, 1000 mL over 8 h; it runs since 08:01."""
    return told(*script, after=after, intervals=policy_from(policy).intervals)


COUNT = "Count the drops. Do not move the clamp while you count."
SITE = "Site check. Look, feel and ask: swelling, leak, cold, pale, numb, red, painful."
DONE = "Every step is done. Say end session to finish."

TALKS = [
    (
        "what is next, and how long the bag lasts, are answered",
        ("what's next", "how long on the bag", "+600", "how much is left in the bag"),
        (
            "Next: Count the drops in fifteen, one five minutes.",
            "By the rate, about one thousand millilitres left. Empty in eight hours.",
            "By the rate, about nine hundred seventy nine millilitres left. "
            "Empty in seven hours fifty, five zero minutes.",
        ),
    ),
    (
        "what is due this minute is due now",
        ("+930", "what's next"),
        (COUNT, "Next: Count the drops now."),
    ),
    (
        "a count is asked for, plainer each time, until it is given, and then after an hour",
        ("+900", "+900", "reminder done", "42 in sixty", "what's next"),
        (
            COUNT,
            f"Again: count the drops. {'Fifteen minutes late.'} Do not move the clamp while you count. "
            "Say how many in sixty.",
            "Count the drops, and say how many in how many seconds.",
            f"Forty two drops in sixty seconds. {DONE}",
            "Next: Count the drops in one hour.",
        ),
    ),
    (
        "a site check is answered by what is found, not by done",
        (
            "the patient is a child",
            "reminder is not needed",
            "+900",
            "42 in sixty",
            "+2700",
            "reminder done",
            "site's fine",
        ),
        (
            "Noted: child. For a child confirm the weight, and ask for a burette or a pump.",
            "No reminder waits for an answer. Ask: what is next.",
            COUNT,
            f"Forty two drops in sixty seconds. {DONE}",
            SITE,
            "Say what you see: site's fine, or what is wrong.",
            f"Site's fine. {DONE}",
        ),
    ),
    (
        "the user's own timer has a name",
        ("remind me in ten minutes to turn him", "+600", "timer done"),
        ("In ten minutes: turn the patient.", "Turn the patient.", "Done: turn the patient."),
    ),
    (
        "a timer for what no grammar holds: the words are kept as sound, and it is called a timer",
        ("remind me in ten minutes to look for his boots", "+600", "timer done", "remind me in twenty"),
        (
            "In ten minutes: your timer. What it is for is kept as sound.",
            "Your timer.",
            "Done: your timer.",
            "Say again?",
        ),
    ),
    (
        "fifteen is doubled in a timer, and undo takes it back",
        ("remind me in fifteen minutes to check his pulse", "undo", "what's next"),
        (
            "In fifteen, one five minutes: pulse.",
            f"Taken back. {DONE}",
            "Next: Count the drops in fifteen, one five minutes.",
        ),
    ),
    (
        "a timer can be put off, or be not needed with a reason",
        (
            *("remind me in five minutes to flush the line", "+300", "again in five minutes", "+300"),
            *("cancel the reminder", "no time"),
        ),
        (
            "In five minutes: flush the line.",
            "Flush the line.",
            "Later: flush the line.",
            "Again: flush the line. Five minutes late. Say timer done.",
            "Why? Say the reason, or wrong to go back.",
            "Not needed: flush the line.",
        ),
    ),
    (
        "a reminder is put off by an hour at most, and a timer runs a day at most",
        ("remind me in five minutes", "+300", "again in two hours", "remind me in 30 hours"),
        (
            "In five minutes: your timer.",
            "Your timer.",
            "From one minute to an hour. Or say: reminder is not needed.",
            "A timer runs from one minute to a day.",
        ),
    ),
    (
        "two at once are said in one breath, the more urgent first, and answered by name",
        (
            *("remind me in fifteen minutes to turn her", "+900", "reminder done", "timer done"),
            "reminder is not needed because it's not needed",
        ),
        (
            "In fifteen, one five minutes: turn the patient.",
            f"Turn the patient. {COUNT}",
            "More than one reminder waits. Answer each by its name.",
            "Done: turn the patient.",
            "Not needed: count the drops.",
        ),
    ),
    (
        "after the last step too a line that stands still is heard, and a bag that is empty",
        ("+60", "it's not running", "the bag is empty", "+1", "bag changed"),
        (
            "Look: clamp, kink, bag height, arm position, tip against the wall."
            " Swelling or pain: clamp and take it out.",
            "The bag is empty.",
            "Bag empty. Look at the bag, close the clamp or change it.",
            "New bag, one thousand, one zero zero zero millilitres. Set the drops again, and count."
            " Done: bag empty.",
        ),
    ),
    (
        "a level that is reported moves the estimate, and more than the bag holds is refused",
        ("three hundred left", "how long on the bag", "two litres left"),
        (
            "Three hundred, three zero zero millilitres left. Empty in two hours twenty four minutes.",
            "By the rate, about three hundred millilitres left. Empty in two hours twenty four minutes.",
            "That is more than was in the bag. Read it again.",
        ),
    ),
    (
        "a new bag begins to be counted anew",
        ("+600", "new bag is up with 500 mils", "how long on the bag"),
        (
            "New bag, five hundred, five zero zero millilitres. Set the drops again, and count.",
            "By the rate, about five hundred millilitres left. Empty in four hours.",
        ),
    ),
]


@pytest.mark.parametrize(("script", "said"), [talk[1:] for talk in TALKS], ids=[talk[0] for talk in TALKS])
def test_dialogue(script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """What was said to the program, and what it answers."""
    talk = running(*script)
    assert talk.said == said


def events(talk: Talk, kind: type) -> list[e.Event]:
    """What was kept of one kind."""
    decoded = [CODEC.decode(row) for row in talk.journal.read(SESSION)]
    return [event for event in decoded if isinstance(event, kind)]


def test_what_is_kept_of_an_answer() -> None:
    """The record says of each reminder when it was due, how often it was said, and how it was answered."""
    talk = running("+900", "+900", "42 in sixty")
    due = START + timedelta(minutes=16)
    assert events(talk, e.ReminderDue) == [
        e.ReminderDue("recount", "", due, 1, 0),
        e.ReminderDue("recount", "", due, 2, 900),
    ]
    assert events(talk, e.ReminderAnswered) == [e.ReminderAnswered("recount", "", due, "found")]


def test_nothing_is_reminded_of_before_the_line_runs() -> None:
    """No drops are counted and no bag is waited for until the clamp opens; hang time runs from the spike."""
    assert {one.kind for one in running(after=TO_NEEDLE).session.reminders} == {"hang"}
    assert {one.kind for one in running(after=TO_SECURE).session.reminders} == {"hang", "site", "catheter"}


def test_a_cannula_that_is_out_is_not_reminded_of() -> None:
    """Swelling while it is secured: it comes out, and nothing is to be looked at."""
    talk = running("draws back", "it's swelling", after=TO_SECURE)
    assert {one.kind for one in talk.session.reminders} == {"hang"}


def test_silence_while_a_sharp_is_open() -> None:
    """A timer that falls due while a sharp is open is said once it is away."""
    script = ("remind me in five minutes", "sharp scratch", "+400", "needle away")
    talk = running(*script, after=(*TO_NEEDLE,))
    assert talk.said[-1].startswith("Needle away.") or "Your timer." in talk.said[-1]
    assert not any("timer" in line for line in talk.said[1:-1])


def test_silence_is_kept_but_for_what_is_urgent_and_not_for_ever() -> None:
    """After "stop" a reminder waits five minutes; an empty bag does not wait."""
    assert running("stop", "+1199").said == ()
    assert running("stop", "+1200").said == (f"Count the drops. Five minutes late. {COUNT[17:]}",)
    empty = running("ten millilitres left", "stop", "+288")
    assert empty.last == "Bag empty. Look at the bag, close the clamp or change it."


def test_a_reminder_waits_for_the_answer_to_a_read_back() -> None:
    """It is not said between a number and its confirmation, and it is not lost."""
    talk = running("new order", "+885", "saline", "+20", "correct", "+1")
    assert COUNT in talk.said[-1]
    assert COUNT not in talk.said[-2]


def test_the_policy_is_kept_with_the_session() -> None:
    """What comes back from the record reminds by the policy that it began with."""
    talk = running(policy="cdc_2011")
    loaded = load(talk.journal, SESSION, emergencies()).session
    assert (loaded.intervals, loaded.reminders) == (policy_from("cdc_2011").intervals, talk.session.reminders)


def resumed(session: Session, hours: float, set_back_s: int = 0) -> tuple[Session, list[str]]:
    """The session after it was cut off for so long, and what it says first."""
    at = START + timedelta(hours=hours)
    said = []
    for event in resume(session, e.SessionResumed("typed", False, 0, set_back_s), at):
        session = evolve(session, event, at)
        said.append(sentence(event, session, {}))
    return session, [text for text in said if text]


def test_what_fell_due_while_it_was_cut_off_is_said_first() -> None:
    """Five hours later: what was due meanwhile, the most urgent first, and how late; once each."""
    _, said = resumed(running().session, 5)
    assert said == [
        "Going on with Peripheral I V.",
        f"Site check. Fifty nine minutes late. {SITE[12:]}",
        f"Count the drops. Four hours forty four minutes late. {COUNT[17:]}",
        DONE,
    ]


def test_a_clock_that_was_set_back_while_it_was_cut_off() -> None:
    """What was to be remembered comes no later than by the time that is known to have passed."""
    talk = running("+600")
    back, said = resumed(talk.session, -3, set_back_s=3 * 3600 + 671)
    assert said[0].endswith("The clock was set back: check when reminders are due.")
    before = {one.kind: one.due for one in talk.session.reminders}
    after = {one.kind: one.due for one in back.reminders}
    assert {kind: before[kind] - after[kind] for kind in before} == dict.fromkeys(
        before, timedelta(seconds=3 * 3600 + 671)
    )
