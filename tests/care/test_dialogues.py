"""What is said to the program, and what it answers: a table of dialogues on the shipped checklist."""

from __future__ import annotations

from fractions import Fraction

import pytest

from handsfree.care import events as e
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
    PRIME,
    RUN,
    SECURE,
    SITE,
    TO_FLUID,
    TO_NEEDLE,
    TO_RUN,
    TO_SECURE,
    TO_SITE,
    WATCH,
    WHOLE,
    told,
)

TO_TIE = (*TO_SITE, "left forearm")
TO_SCRUB = (*TO_SITE, *SITE[:5])
TO_SET = (*ORDER, *EQUIPMENT[:3])
TO_BAG_EXPIRY = (*TO_FLUID, FLUID[0])
FIRST_STEPS = "Wash with soap and water. Report it at once. Follow local protocol."


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
    assert talk.last == "Session ended. Every step is done."
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


DIALOGUES: tuple[tuple[str, tuple[str, ...], tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "an unanswered read-back lapses and changes nothing",
        ORDER[:1],
        ("normal saline", "+31"),
        (
            "Sodium chloride zero point nine percent. Correct?",
            "Not confirmed. Nothing was changed. Which fluid is ordered?",
        ),
    ),
    (
        "after wrong it is asked again",
        ORDER[:1],
        ("normal saline", "wrong", "hartmann's", "no"),
        (
            "Sodium chloride zero point nine percent. Correct?",
            "Taken back. Which fluid is ordered?",
            "Compound sodium lactate. Correct?",
            "Taken back. Which fluid is ordered?",
        ),
    ),
    (
        "another value instead of correct is read back in its place",
        ORDER[:3],
        ("one litre", "five hundred mil"),
        (
            "One thousand, one zero zero zero millilitres. Correct?",
            "Five hundred, five zero zero millilitres. Correct?",
        ),
    ),
    (
        "fifteen and fifty are doubled, and an unusual set is confirmed twice",
        TO_SET,
        ("fifteen", "wrong", "fifty", "correct", "wrong"),
        (
            "Fifteen, one five drops a millilitre. Correct?",
            "Taken back. Read the drops per millilitre from the pack of the drip set.",
            "Fifty, five zero drops a millilitre. Correct?",
            "That is unusual. 50 drops a millilitre is not a usual set: read the number on its pack again."
            " If it is meant, say correct once more.",
            "Taken back. Read the drops per millilitre from the pack of the drip set.",
        ),
    ),
    (
        "several answers in one breath; what remains is named",
        ORDER,
        ("gloved fifteen set green eighteen", "correct"),
        (
            "Gloved. Eighteen, one eight gauge. Fifteen, one five drops a millilitre. Correct?",
            "Taken. The drip rate is: Thirty one, three one drops a minute. One drop every one point nine"
            " seconds. Seven or eight drops in fifteen seconds. A second cannula within reach.",
        ),
    ),
    (
        "a bag that is not the one ordered stops, and no reason passes it",
        TO_FLUID,
        ("lactated ringer's", "go on anyway because no time", "sodium chloride 0.9 percent"),
        (
            "Stop. The order says sodium chloride zero point nine percent. You said compound sodium lactate."
            " Get the right one, or say new order.",
            "This cannot be passed over. Answer again, or say new order.",
            "Sodium chloride zero point nine percent. Read its expiry date.",
        ),
    ),
    (
        "out of date stops; a reason passes it and is kept",
        TO_BAG_EXPIRY,
        ("expires april 2031", "go on anyway because local protocol"),
        (
            "Stop. Out of date: April twenty thirty one. Do not use it. Take another and read its date.",
            "Gone on, with your reason in the record. April twenty thirty one."
            " Is it clear, without particles?",
        ),
    ),
    (
        "a month means its last day",
        TO_BAG_EXPIRY,
        ("expires may 2031",),
        ("May twenty thirty one. Is it clear, without particles?",),
    ),
    (
        "in date on the last day",
        TO_BAG_EXPIRY,
        ("fourth of may 2031",),
        ("The fourth of May twenty thirty one. Is it clear, without particles?",),
    ),
    (
        "out of date the day after",
        TO_BAG_EXPIRY,
        ("third of may 2031", "use by june third 2031"),
        (
            "Stop. Out of date: the third of May twenty thirty one. Do not use it."
            " Take another and read its date.",
            "The third of June twenty thirty one. Is it clear, without particles?",
        ),
    ),
    (
        "a site on the limb to avoid stops",
        (*ORDER[:8], "avoid the left", "consented", *EQUIPMENT, *FLUID, *PRIME),
        ("left forearm", "go on anyway", "right hand"),
        (
            "Stop. Left forearm does not go with: avoid the left. Choose another.",
            "This cannot be passed over. Answer again, or say new order.",
            "Right hand. Tourniquet on.",
        ),
    ),
    (
        "an antiseptic that the patient is allergic to stops",
        (*ORDER[:7], "allergic to chlorhexidine", *ORDER[8:], *EQUIPMENT[:6]),
        ("chlorhexidine", "alcohol"),
        (
            "Stop. Chlorhexidine does not go with: allergic to chlorhexidine. Choose another.",
            "Alcohol. Flush: read what it is, how much, and its expiry date.",
        ),
    ),
    (
        "colour and number of the cannula that do not agree close nothing",
        (*ORDER, "gloved"),
        ("green twenty", "green eighteen"),
        (
            "The colour says 18, the number 20. Read the pack again.",
            "Eighteen, one eight gauge. A second cannula within reach.",
        ),
    ),
    (
        "nor do two answers in one breath",
        (*ORDER, "gloved"),
        ("green twenty gauge", "green"),
        (
            "Eighteen, one eight gauge. Stop. Before it was eighteen, one eight gauge, now twenty gauge."
            " Which one? Which cannula?",
            "Eighteen, one eight gauge. A second cannula within reach.",
        ),
    ),
    (
        "nor two numbers that would be confirmed",
        (*ORDER, "gloved"),
        ("fifteen set twenty set",),
        (
            "Not confirmed. Nothing was changed. Stop. Before it was fifteen, one five drops a millilitre,"
            " now twenty drops a millilitre. Which one?"
            " Read the drops per millilitre from the pack of the drip set.",
        ),
    ),
    (
        "a second answer that disagrees stops, and both are said",
        (*ORDER, "gloved", "green"),
        ("pink", "pink", "pink"),
        (
            "Stop. Before it was eighteen, one eight gauge, now twenty gauge. Which one? Which cannula?",
            "Twenty gauge. A second cannula within reach.",
            "Done already.",
        ),
    ),
    (
        "back to a step, its value changed",
        (*ORDER, "gloved", "green"),
        ("back", "pink"),
        (
            "Back at: Which cannula? It is done, eighteen, one eight gauge."
            " Say it again to change it, or next.",
            "Twenty gauge. A second cannula within reach.",
        ),
    ),
    (
        "undo opens what was closed",
        (*ORDER, "gloved"),
        ("green", "scrub that", "undo", "undo", "undo"),
        (
            "Eighteen, one eight gauge. A second cannula within reach.",
            "Taken back. Which cannula?",
            "Taken back. Clean your hands, then gloves and eye protection.",
            "Taken back. Explain why, and ask for consent.",
            "Taken back. Is there an arm to avoid?",
        ),
    ),
    (
        "questions",
        (*ORDER, "gloved"),
        ("say that again", "how", "why", "where am i", "what's left", "what can i say"),
        (
            "Gloved. Which cannula?",
            "Read the gauge from the pack, for example green eighteen. Take the smallest that does the job.",
            "The gauge goes on the label, and limits the flow.",
            "Phase two of nine, Equipment. Which cannula?",
            "Still open: gauge, spare, drop factor, kit, antiseptic, flush expiry, and forty one more.",
            "You can say: orange, next, back, how, repeat, what is left.",
        ),
    ),
    (
        "next never closes a value, nor a critical step",
        (*ORDER, "gloved"),
        (
            "next",
            "green",
            "next",
            "twenty set",
            "correct",
            "next",
            "iodine",
            "in date till june 2033",
            "done",
        ),
        (
            "This step wants its value.",
            "Eighteen, one eight gauge. A second cannula within reach.",
            "Read the drops per millilitre from the pack of the drip set.",
            "Twenty, two zero drops a millilitre. Correct?",
            "Taken. The drip rate is: Forty two, four two drops a minute. One drop every one point four"
            " seconds. Ten or eleven drops in fifteen seconds."
            " Tourniquet, dressing, tape, label and lock ready?",
            "Which skin antiseptic?",
            "Iodine. Flush: read what it is, how much, and its expiry date.",
            "June twenty thirty three. Sharps container open, within reach.",
            "This step is critical: say its own words.",
        ),
    ),
    (
        "a pause hears nothing but listen, and emergencies",
        ORDER,
        ("stop listening", "gloved", "next", "needle stick", "listen again"),
        (
            "Not listening. Say listen again.",
            f"Needle stick. Make the sharp safe. {FIRST_STEPS}",
            "Listening. Clean your hands, then gloves and eye protection.",
        ),
    ),
    (
        "stop means silence, at once",
        ORDER,
        ("hang on", "gloved", "+600", "carry on"),
        ("Going on. Clean your hands, then gloves and eye protection.",),
    ),
    (
        "the end wants a confirmation",
        ORDER,
        ("end session", "gloved", "no", "end session", "yes end it"),
        (
            "End the session? Say yes end it, or wrong.",
            "Going on. Clean your hands, then gloves and eye protection.",
            "End the session? Say yes end it, or wrong.",
            "Session ended. Still open: hands, gauge, spare, drop factor, kit, antiseptic,"
            " and forty two more.",
        ),
    ),
    (
        "a tie has its clock until the tourniquet is off, and each tie has its own",
        TO_TIE,
        (
            *("tourniquet on", "+59", "+1", "tourniquet on", "+59", "+1", "+100", "tourniquet off"),
            *("tourniquet's on", "+60", "tourniquet is off", "+100"),
        ),
        (
            "Tourniquet on. Feel the vein.",
            "Tourniquet, one minute.",
            "Done already.",
            "Warning. Tourniquet two minutes. Take it off.",
            "Tourniquet off. Feel the vein.",
            "Tourniquet's on. Feel the vein.",
            "Tourniquet, one minute.",
            "Tourniquet is off. Feel the vein.",
        ),
    ),
    (
        "scrubbing and drying too short are refused, with the seconds that are left",
        TO_SCRUB,
        ("scrubbing", "+10", "scrub done", "+20", "scrub done", "+29", "it's dry", "+1", "it's dry"),
        (
            "Scrubbing. Clean until I say thirty seconds, then say scrub done.",
            "Not yet. 20 more seconds.",
            "Thirty seconds of cleaning.",
            "Scrub done. Let it dry by itself, and say it's dry when you see it.",
            "Not yet. 1 more second.",
            "Drying time is over. Is it dry to see?",
            "It's dry. Tourniquet on again.",
        ),
    ),
    (
        "iodine dries for two minutes",
        (*ORDER, *EQUIPMENT[:6], "iodine", *EQUIPMENT[7:], *FLUID, *PRIME, *SITE[:5]),
        ("scrubbing", "+30", "scrub done", "+30", "it's dry", "+90", "it's dry"),
        (
            "Scrubbing. Clean until I say thirty seconds, then say scrub done.",
            "Thirty seconds of cleaning.",
            "Scrub done. Let it dry by itself, and say it's dry when you see it.",
            "Not yet. 90 more seconds.",
            "Drying time is over. Is it dry to see?",
            "It's dry. Tourniquet on again.",
        ),
    ),
    (
        "touched: clean again, and no clock of the first cleaning goes on",
        TO_SCRUB,
        ("scrubbing", "+30", "scrub done", "+5", "touched it", "scrubbing", "+30", "+100"),
        (
            "Scrubbing. Clean until I say thirty seconds, then say scrub done.",
            "Thirty seconds of cleaning.",
            "Scrub done. Let it dry by itself, and say it's dry when you see it.",
            "Touched. Clean again. Say scrubbing when you begin to clean.",
            "Scrubbing. Clean until I say thirty seconds, then say scrub done.",
            "Thirty seconds of cleaning.",
        ),
    ),
    (
        "silence while a sharp is open, but for what is asked, refused or urgent",
        TO_NEEDLE,
        (
            "sharp scratch",
            "+60",
            "flash",
            "cough cough",
            "cough",
            "cough",
            "what's left",
            "+60",
            "needle away",
        ),
        (
            "Still open: advanced, untie, pressed, needle away, connected, draws back, and ten more.",
            "Warning. Tourniquet two minutes. Take it off.",
            "Needle away. Lower the angle, a little further, and slide the cannula off the needle.",
        ),
    ),
    (
        "failed with the sharp open: the needle comes first, and cannot be left out",
        TO_NEEDLE,
        ("sharp scratch", "no flash", "skip", "tourniquet off", "needle away"),
        (
            "Tourniquet off. Needle out and into the sharps container. Press on the site.",
            "The needle comes first.",
            "Needle away. Choose the site. Say side and place.",
        ),
    ),
    (
        "failed twice: ask for help",
        (
            *(*TO_NEEDLE, "sharp scratch", "no flash", "tourniquet off", "needle away"),
            *(*SITE[:4], *SITE[5:], "sharp scratch"),
        ),
        ("it's blown", "tourniquet off", "needle away"),
        (
            "Tourniquet off. Needle out and into the sharps container. Press on the site."
            " Two attempts by one person. Ask for help, or another colleague.",
            "Needle away. Choose the site. Say side and place.",
        ),
    ),
    (
        "the tourniquet comes off while the site is looked for anew",
        (*TO_NEEDLE, "sharp scratch", "+130", "no flash", "needle away"),
        ("tourniquet off",),
        ("Tourniquet off. Choose the site. Say side and place.",),
    ),
    (
        "no drip rate for what needs a pump, or another procedure",
        ORDER[:1],
        ("potassium", "insulin", "heparin", "blood", "noradrenaline"),
        (
            "Potassium is no drip here, and never pushed. Use a pump and a second checker.",
            "Insulin is never computed as a drip here. Use a pump and a second checker.",
            "Heparin is never computed as a drip here. Use a pump and a second checker.",
            "Blood is never computed as a drip here. Follow the local transfusion procedure.",
            "Vasopressors are never computed as a drip here. Use a pump and a second checker.",
        ),
    ),
    (
        "not understood: again, choices, left open",
        ORDER,
        ("mumble", "mumble", "mumble"),
        (
            "Say again?",
            "You can say: gloved, next, back, how, repeat, what is left.",
            "Left open: hands. Say it any time. Which cannula?",
        ),
    ),
    (
        "a read-back that is not understood is dropped, then there is silence",
        ORDER[:2],
        ("mumble",) * 9,
        (
            "Say again?",
            "You can say: correct, wrong, repeat, what is left, stop, end session.",
            "Not confirmed. Nothing was changed. Which fluid is ordered?",
        ),
    ),
    (
        "a stop does not ask for ever",
        (*TO_FLUID, "glucose 5 percent"),
        ("mumble",) * 9,
        ("Say again?", "You can say: normal saline, back, how, repeat, what is left, stop."),
    ),
    ("noise does nothing", ORDER, ("...", "-", "..."), ()),
    (
        "noise is no reason",
        ORDER,
        ("skip", "...", "wrong"),
        (
            "Why? Say the reason, or wrong to go back.",
            "Clean your hands, then gloves and eye protection.",
        ),
    ),
    (
        "keep open is no rate, and no number counts outside its question",
        ORDER[:5],
        ("keep it open", "over eight", "correct", "fifteen"),
        (
            "Say again?",
            "Over eight hours. Correct?",
            "Taken. Any allergies? Latex, skin antiseptic, tape.",
            "Say again?",
        ),
    ),
    (
        "correct means nothing where nothing was read back",
        ORDER,
        ("correct", "yes end it"),
        ("Say again?", "You can say: gloved, next, back, how, repeat, what is left."),
    ),
    (
        "a count off the order is to be set again",
        (*TO_RUN, *RUN[:2]),
        ("twenty in sixty", "fifteen in fifteen", "eleven in fifteen"),
        (
            "That is twenty drops a minute. Wanted: forty two, four two drops a minute."
            " Too slow: open the clamp a little, and count again.",
            "That is sixty drops a minute. Wanted: forty two, four two drops a minute."
            " Too fast: close the clamp a little, and count again.",
            "Eleven drops in fifteen seconds. Look at site and flow once more before you leave.",
        ),
    ),
    (
        "attempts that do not agree with those counted stop",
        (*TO_SECURE, *SECURE[:4]),
        ("two attempts", "one attempt"),
        (
            "Stop. You said two attempts, I counted one attempt."
            " Say it again, or go on anyway with a reason.",
            "One attempt. Write the label: the fourth of May twenty thirty one, zero eight zero one,"
            " eighteen, one eight gauge, left forearm, and your initials.",
        ),
    ),
    (
        "swelling reopens the whole way to a new line",
        (*TO_SECURE, *SECURE[:2]),
        ("it's swelling",),
        (
            "Stop the flush. Tourniquet off. Take the cannula out and press. Choose another site."
            " Choose the site. Say side and place.",
        ),
    ),
    (
        "critical steps only",
        ORDER,
        ("critical steps only",),
        ("Critical steps only. The rest stays open in the record. Which cannula?",),
    ),
    (
        "nothing can be taken back before anything was said",
        (),
        ("undo", "back", "back"),
        ("There is nothing to take back.", "This is the first step.", "This is the first step."),
    ),
    (
        "lock only, then an order after all",
        ("two identifiers", "lock only"),
        ("new order",),
        ("Which fluid is ordered?",),
    ),
)


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == told(*script, after=after).said


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
