"""Dialogues about what hands do: ties, cleaning, the needle, the clamp."""

from __future__ import annotations

import pytest

from tests.dialogues import (
    EQUIPMENT,
    FLUID,
    ORDER,
    PRIME,
    RUN,
    SECURE,
    SITE,
    TO_NEEDLE,
    TO_PRIME,
    TO_RUN,
    TO_SECURE,
    TO_SITE,
    WHOLE,
    told,
)

TO_TIE = (*TO_SITE, "left forearm")
TO_SCRUB = (*TO_SITE, *SITE[:5])
NEXT_BAG = ("saline", "correct", "500 mils", "correct", "sodium chloride 0.9 percent", "expires june 2033")

DIALOGUES: tuple[tuple[str, tuple[str, ...], tuple[str, ...], tuple[str, ...]], ...] = (
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
        "a count off the order is to be set again",
        (*TO_RUN, *RUN[:2]),
        ("twenty in sixty", "fifteen in fifteen", "eleven in fifteen"),
        (
            "That is twenty drops a minute, fifty two percent too slow; one drop more or less is one a"
            " minute. Wanted: forty two, four two drops a minute. Too slow: open the clamp a little, and"
            " count again.",
            "That is sixty drops a minute, forty four percent too fast; one drop more or less is four a"
            " minute. Wanted: forty two, four two drops a minute. Too fast: close the clamp a little, and"
            " count again.",
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
        "a bag that is not clear is read again, and air is tapped out",
        WHOLE,
        (
            "change the bag",
            *NEXT_BAG,
            "it's cloudy",
            *NEXT_BAG[4:],
            "it's clear",
            "clamp shut",
            "spiked",
            "there's air in it",
            "no air",
        ),
        (
            "Bag change. Which fluid is ordered next?",
            "Sodium chloride zero point nine percent. Correct?",
            "Taken. How much is in it?",
            "Five hundred, five zero zero millilitres. Correct?",
            "Taken. Read the bag: name and strength.",
            "Sodium chloride zero point nine percent. Read its expiry date.",
            "June twenty thirty three. Is it clear, and does it stay dry when squeezed?",
            "Do not use this bag. Take another, and read it from the beginning."
            " Read the bag: name and strength.",
            "Sodium chloride zero point nine percent. Read its expiry date.",
            "June twenty thirty three. Is it clear, and does it stay dry when squeezed?",
            "It's clear. Close the clamp.",
            "Clamp shut. Take the spike out and into the new bag, without touching it.",
            "Spiked. Chamber half full, and no air in the line?",
            "Keep the clamp closed, and tap the bubbles up into the chamber."
            " Chamber half full, and no air in the line?",
            "No air. Open the clamp, set the drops, and count over a full minute.",
        ),
    ),
    (
        "what comes after a step that was left out with a reason is not held up by it",
        (*TO_PRIME, *PRIME[:3]),
        ("skip this because no time", "primed"),
        (
            "Left out: chamber. Open the clamp slowly and run the line through.",
            "Primed. Look along the line. Any air?",
        ),
    ),
    (
        "a site that still bleeds is pressed on, and asked about again",
        (*WHOLE, "take the line out", "gloved", "clamp closed", "it's out", "tip is whole"),
        ("it's still bleeding", "+120", "bleeding stopped"),
        (
            "Press on, and look again in two minutes.",
            "Two minutes of pressure. Look whether it has stopped.",
            "Bleeding stopped. Cover the site.",
        ),
    ),
)
"""What is shown, the lines before, further lines, and what is said to those."""


@pytest.mark.parametrize(
    ("after", "script", "said"), [row[1:] for row in DIALOGUES], ids=[row[0] for row in DIALOGUES]
)
def test_dialogue(after: tuple[str, ...], script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After some lines, each further line is answered like this."""
    assert said == told(*script, after=after).said
