"""Dialogues about the talk itself: questions, silence, pauses, misses, the end."""

from __future__ import annotations

import pytest

from tests.dialogues import ORDER, TO_FLUID, TO_SITE, WHOLE, told

FIRST_STEPS = "Wash with soap and water. Report it at once. Follow local protocol."

DIALOGUES: tuple[tuple[str, tuple[str, ...], tuple[str, ...], tuple[str, ...]], ...] = (
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
            "You can say: orange, how, repeat, undo, skip, stop.",
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
        "a pause goes on when a read-back lapses in it",
        ORDER[:2],
        ("stop listening", "+60", "correct", "normal saline", "listen again"),
        ("Not listening. Say listen again.", "Listening. Which fluid is ordered?"),
    ),
    (
        "so does silence",
        ORDER[:2],
        ("stop", "+60", "correct", "carry on"),
        ("Going on. Which fluid is ordered?",),
    ),
    (
        "what is due is said in a pause, not in silence unless it is urgent",
        (*TO_SITE, "left forearm", "tourniquet on"),
        ("ears off", "tourniquet off", "+61", "ears on", "stop", "+60"),
        (
            "Not listening. Say listen again.",
            "Tourniquet, one minute.",
            "Listening. Feel the vein.",
            "Warning. Tourniquet two minutes. Take it off.",
        ),
    ),
    (
        "a question in between outlives a read-back that lapses",
        ORDER[:2],
        ("end session", "+60", "no"),
        (
            "End the session? Say yes end it, or wrong.",
            "Not confirmed. Nothing was changed.",
            "Going on. Which fluid is ordered?",
        ),
    ),
    (
        "the same words twice in one breath are done once",
        (*TO_FLUID, "normal saline"),
        ("clear and no particles", "clear"),
        ("Clear. Read its expiry date.", "Done already."),
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
            "Session ended. Ordered: sodium chloride zero point nine percent, one thousand millilitres,"
            " over eight hours. Still open: hands, gauge, spare, drop factor, kit, antiseptic,"
            " and forty two more.",
        ),
    ),
    (
        "not understood: again, choices, left open",
        ORDER,
        ("mumble", "mumble", "mumble"),
        (
            "Say again?",
            "You can say: gloved, next, how, repeat, undo, skip.",
            "Left open: hands. Say it any time. Which cannula?",
        ),
    ),
    (
        "a read-back that is not understood is dropped, then there is silence",
        ORDER[:2],
        ("mumble",) * 9,
        (
            "Say correct, or wrong.",
            "You can say: correct, wrong, repeat, undo, stop, end session.",
            "Not confirmed. Nothing was changed. Which fluid is ordered?",
        ),
    ),
    (
        "in a loud room it says at the second miss what helps",
        ORDER,
        ("~mumble", "~draws back", "~gloved"),
        (
            "Say again?",
            "It is loud here. Bring the microphone closer to your mouth."
            " You can say: gloved, next, how, repeat, undo, skip.",
            "Gloved. Which cannula?",
        ),
    ),
    (
        "a stop does not ask for ever",
        (*TO_FLUID, "glucose 5 percent"),
        ("mumble",) * 9,
        ("Say again?", "You can say: normal saline, how, repeat, undo, stop, end session."),
    ),
    (
        "when no step is left, what the line is asked",
        WHOLE,
        ("what can i say",),
        ("You can say: what is next, how long on the bag, read the record, repeat, undo, stop.",),
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
        "correct means nothing where nothing was read back",
        ORDER,
        ("correct", "yes end it"),
        ("Nothing waits to be confirmed.", "Say end session first."),
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
"""What is shown, the lines before, further lines, and what is said to those."""


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == told(*script, after=after).said
