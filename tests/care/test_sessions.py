"""What is said to the program, and what it answers: whole sessions on the shipped checklist."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care import events as e
from handsfree.care.evolution import UNDOS
from handsfree.care.infusion.rounding import POLICY, Rounded
from handsfree.care.rules import Mode
from handsfree.care.session import State
from handsfree.record import CODEC
from handsfree.testing.dialogue import CLIP, SESSION, Talk
from tests.dialogues import (
    CANNULATE,
    EQUIPMENT,
    FLUID,
    ORDER,
    RUN,
    SECURE,
    SITE,
    TO_FLUID,
    TO_NEEDLE,
    TO_RUN,
    TO_SITE,
    WATCH,
    WHOLE,
    told,
)

TO_TIE = (*TO_SITE, "left forearm")
TO_BAG_EXPIRY = (*TO_FLUID, FLUID[0])


def events(talk: Talk, kind: type) -> list[e.Event]:
    """What was kept of one kind."""
    decoded = [CODEC.decode(row) for row in talk.journal.read(SESSION)]
    return [event for event in decoded if isinstance(event, kind)]


def test_whole_session_with_an_infusion() -> None:
    """From the order to the running line: nothing is left open, and the drip rate is the published one.

    1000 mL over 8 h at 20 drops/mL are 42 drops a minute: Pharmacology Math for the Practical Nurse,
    MD0904 ed. 100 (US Army Medical Department), page 123.
    """
    talk = told(*WHOLE, "end session", "yes end it")
    assert talk.session.left_open() == ()
    assert talk.session.mode is Mode.OVER
    assert talk.last.startswith("Session ended. Ordered: ")
    assert talk.last.endswith(" One attempt. Every step is done.")
    assert any("The drip rate is: Forty two, four two drops a minute." in line for line in talk.said)


def test_whole_session_with_a_lock() -> None:
    """Lock only: no step of the infusion is asked, and every other is."""
    order = ("two identifiers", "lock only", *ORDER[-3:])
    equipment = tuple(line for line in EQUIPMENT if line not in ("twenty set", "correct"))
    talk = told(*order, *equipment, "lock primed", *SITE, *CANNULATE, *SECURE, *WATCH)
    assert talk.session.left_open() == ()
    assert talk.session.rate is None
    assert not [line for line in talk.said if "drop" in line or "clamp" in line.lower()]


SOURCE_123 = (
    "Pharmacology Math for the Practical Nurse, MD0904 ed. 100 (US Army Medical Department), page 123"
)
SOURCE_125 = (
    "Pharmacology Math for the Practical Nurse, MD0904 ed. 100 (US Army Medical Department), page 125"
)
SOURCE_HELP = "Math for Nursing, flow-rate help sheet (college mathematics learning center, 2000)"


@pytest.mark.parametrize(
    ("order", "drop_rate", "words", "source"),
    [
        (("one litre", "over eight hours", "twenty set"), "42", "Forty two, four two", SOURCE_123),
        (("1000 mils", "over ten hours", "fifteen set"), "25", "Twenty five, two five", SOURCE_123),
        (("two litres", "over 720 minutes", "fifteen set"), "42", "Forty two, four two", SOURCE_125),
        (("2000 millilitres", "at 125 mils an hour", "twenty set"), "42", "Forty two, four two", SOURCE_125),
        (("1500 mils", "over 24 hours", "twenty set"), "21", "Twenty one, two one", SOURCE_125),
        (("500 mils", "over 4 hours", "ten drops a mil"), "21", "Twenty one, two one", SOURCE_125),
        (("a litre", "over 9 hours", "fifteen set"), "28", "Twenty eight, two eight", SOURCE_HELP),
    ],
)
def test_published_orders_by_voice(
    order: tuple[str, str, str], drop_rate: str, words: str, source: str
) -> None:
    """An order taken by voice gives the drip rate that the source prints, said two ways."""
    volume, speed, drops = order
    before = (*ORDER[:3], volume, "correct", speed, "correct", *ORDER[7:], *EQUIPMENT[:3])
    talk = told(drops, "correct", after=before)
    assert talk.session.rate is not None
    rounded = POLICY.round(talk.session.rate.drop_rate_per_min, "gtt/min")
    assert isinstance(rounded, Rounded)
    assert (str(rounded.value), source) == (drop_rate, source)
    assert f"The drip rate is: {words} drops a minute." in talk.last


def test_nothing_acts_before_correct() -> None:
    """The rate is not there, and no step closed, until each number was read back and confirmed."""
    talk = told("one litre", "over eight hours", "twenty set", after=ORDER[:3])
    assert talk.session.rate is None
    assert talk.session.value("order_volume") == ""
    order = told(*ORDER, *EQUIPMENT[:4])
    assert (order.session.rate, order.session.value("drop_factor")) == (None, "")
    confirmed = told(*ORDER, *EQUIPMENT[:5])
    assert confirmed.session.rate is not None
    assert confirmed.session.rate.drop_rate_per_min == Fraction(125, 3)


def test_skip_with_a_reason_of_the_grammar() -> None:
    """A reason that the grammar holds is kept as its words, without a clip."""
    talk = told("skip because we have none", "skip", "local protocol", after=ORDER)
    assert events(talk, e.StepSkipped) == [
        e.StepSkipped("hands", "not available"),
        e.StepSkipped("gauge", "local protocol"),
    ]
    assert talk.session.mark("hands").state is State.SKIPPED


def test_skip_with_free_words() -> None:
    """Any other reason is kept as it sounded, with the path of its clip: unverified."""
    talk = told("skip", "the box fell down", after=ORDER)
    assert events(talk, e.StepSkipped) == [e.StepSkipped("hands", "the box fell down", CLIP)]


def test_override_with_free_words() -> None:
    """So is the reason for which a stop is passed over."""
    talk = told("expires april 2031", "go on anyway", "nothing else is here", after=TO_BAG_EXPIRY)
    assert events(talk, e.StopOverridden) == [e.StopOverridden("bag_expiry", "nothing else is here", CLIP)]


@pytest.mark.parametrize(
    "before",
    [
        ORDER,
        ORDER[:2],
        (*TO_FLUID, "glucose 5 percent"),
        (*ORDER, "skip"),
        (*ORDER, "end session"),
        (*ORDER, "stop"),
        (*ORDER, "stop listening"),
        (*TO_NEEDLE, "sharp scratch"),
        WHOLE,
    ],
    ids=["walking", "confirming", "stopped", "reasoning", "ending", "held", "asleep", "sharp open", "done"],
)
@pytest.mark.parametrize(
    ("said", "first"),
    [
        ("i stuck myself", "Needle stick."),
        ("patient is faint", "Faint."),
        ("she can't breathe", "Reaction."),
        ("air in the line", "Air in the line."),
    ],
)
def test_emergencies_at_any_time(before: tuple[str, ...], said: str, first: str) -> None:
    """The first steps of an emergency are said in every mode, and the mode stays."""
    talk = told(said, after=before)
    assert talk.last.startswith(first)
    assert talk.session.mode is told(*before).session.mode


def test_a_changed_order_changes_the_rate() -> None:
    """After a new order the old rate counts no more; the new one is computed, and set once more."""
    changed = told("new order", after=(*TO_RUN, *RUN))
    assert changed.session.rate is None
    order = ("new order", "saline", "correct", "500 mils", "correct", "over six hours", "correct")
    talk = told(*order, after=(*TO_RUN, *RUN))
    assert "The drip rate is: Twenty eight, two eight drops a minute." in talk.last
    assert talk.last.endswith("In fifteen seconds, six or seven drops.")
    reopened = talk.session.mark("clamp_open").state, talk.session.mark("counted").state
    assert reopened == (State.OPEN, State.OPEN)


def test_a_lock_in_place_of_what_runs() -> None:
    """A new order for a lock alone ends the clocks of the infusion, of the cannula none."""
    talk = told("new order", "lock only", after=WHOLE)
    assert "If one runs, stop it" in talk.last
    assert {"catheter", "site"} == talk.session.since.keys()
    assert talk.session.bag is None


def test_the_tag_is_never_spoken() -> None:
    """The tag of an unknown patient is kept, and never said back, whatever is asked."""
    script = (
        "tag twelve",
        "back",
        "repeat",
        "where am i",
        "what's left",
        "next",
        "help",
        "undo",
        "tag twelve",
    )
    talk = told(*script, "tag thirteen")
    assert talk.session.stop is not None
    assert (talk.session.stop.other_value, talk.session.stop.value) == ("tag 12", "tag 13")
    assert not [line for line in talk.said if "twelve" in line or "thirteen" in line or "12" in line]


def test_an_ear_that_hears_less_well_reads_back_everything() -> None:
    """With such an ear each value waits for "correct", whatever its kind."""
    first = told("two identifiers", reads_back=True)
    assert first.last == "Two identifiers. Correct?"
    assert first.session.value("patient") == ""


def test_a_tie_is_timed_from_when_it_was_said() -> None:
    """Time that passes in one piece or in many gives the same cues."""
    once = told("+150", after=(*TO_TIE, "tourniquet on"))
    often = told(*("+1",) * 150, after=(*TO_TIE, "tourniquet on"))
    assert (
        once.said
        == often.said
        == (
            "Tourniquet, one minute.",
            "Warning. Tourniquet two minutes. Take it off.",
        )
    )


def test_so_many_changes_can_be_taken_back() -> None:
    """A long session holds its last changes, not all that it ever was; the one before them stays."""
    long = told(ORDER, *(["gloved", "touched it"] * 20))
    assert [()] * UNDOS == [one.befores for one in long.session.befores]

    undone = told(ORDER, *(["gloved", "touched it"] * 20), *(["undo"] * (UNDOS + 1)))
    assert undone.last == "There is nothing to take back."
    assert undone.session.value("order_fluid") == long.session.value("order_fluid") != ""
