"""Dialogues about values: read back, confirmed, in disagreement, out of date."""

from __future__ import annotations

import pytest

from tests.dialogues import EQUIPMENT, FLUID, ORDER, PRIME, RUN, TO_FLUID, TO_RUN, TO_SITE, told

TO_SET = (*ORDER, *EQUIPMENT[:3])
TO_BAG_EXPIRY = (*TO_FLUID, FLUID[0])

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
        "a number alone answers the read-back too, and is read back in turn; yes does not",
        TO_SET,
        ("fifty", "yes", "fifteen", "correct"),
        (
            "Fifty, five zero drops a millilitre. Correct?",
            "Say correct, or wrong.",
            "Fifteen, one five drops a millilitre. Correct?",
            "Taken. The drip rate is: Thirty one, three one drops a minute. One drop every one point nine"
            " seconds. Seven or eight drops in fifteen seconds."
            " Tourniquet, dressing, tape, label and lock ready?",
        ),
    ),
    (
        "what is impossible is refused with its limit, one in the singular, long times in hours",
        ORDER[:3],
        ("zero", "one litre", "correct", "at five mils an hour"),
        (
            "0 millilitres is below the limit of 1 millilitre (local policy). What volume?",
            "One thousand, one zero zero zero millilitres. Correct?",
            "Taken. Over what time, or at what rate?",
            "200 hours is above the limit of 168 hours (local policy). Over what time, or at what rate?",
        ),
    ),
    (
        "a whole number of drops in fifteen seconds is one number",
        (*ORDER[:5], "at one hundred twenty mils an hour", "correct", *ORDER[7:], *EQUIPMENT[:4]),
        ("correct",),
        (
            "Taken. The drip rate is: Forty, four zero drops a minute. One drop every one point five seconds."
            " Ten drops in fifteen seconds. Tourniquet, dressing, tape, label and lock ready?",
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
        "what was unusual is not told again with the next value; of a child it is told anew",
        (*ORDER[:5], "over thirty minutes", "correct", "correct", *ORDER[7:], *EQUIPMENT[:3], "twenty set"),
        ("correct", "correct", "the patient is a child"),
        (
            "That is unusual. 667 drops a minute is above what is usual, 200 drops a minute"
            " (what an eye can count, from memory). If it is meant, say correct once more.",
            "Taken. The drip rate is: Six hundred sixty seven, six six seven drops a minute."
            " One drop every zero point one seconds. One hundred sixty six or one hundred sixty seven drops"
            " in fifteen seconds. Tourniquet, dressing, tape, label and lock ready?",
            "Noted: child. For a child confirm the weight, and ask for a burette or a pump."
            " 2000 millilitres an hour is above what is usual for a child, 250 millilitres an hour"
            " (local policy). 667 drops a minute is above what is usual, 200 drops a minute"
            " (what an eye can count, from memory).",
        ),
    ),
    (
        "another fluid is ordered while the bag hangs: the bag is read again",
        (
            *TO_RUN,
            *RUN,
            "new order",
            "lactated ringer's",
            "correct",
            "one litre",
            "correct",
            "over eight hours",
        ),
        ("correct", "normal saline", "wrong bag"),
        (
            "Taken. The drip rate is: Forty two, four two drops a minute. One drop every one point four"
            " seconds. Ten or eleven drops in fifteen seconds. Read the bag: name and strength.",
            "Stop. The order says compound sodium lactate. You said sodium chloride zero point nine percent."
            " Get the right one, or say new order.",
            "Do not use this bag. Take another, and read it from the beginning."
            " Read the bag: name and strength.",
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
        "a limb to avoid that is told after the site has the site asked again",
        (*TO_SITE, "left forearm", *["back"] * 24),
        ("avoid the left", "left forearm"),
        (
            "Avoid the left. Choose the site. Say side and place.",
            "Stop. Left forearm does not go with: avoid the left. Choose another.",
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
        "keep open is no rate, and no number counts outside its question",
        ORDER[:5],
        ("keep it open", "over eight", "correct", "fifteen"),
        (
            "Keep open is not a rate. Ask for a number, and say how many millilitres an hour.",
            "Over eight hours. Correct?",
            "Taken. Any allergies? Latex, skin antiseptic, tape.",
            "No step waits for that now. To ask, begin with: what rate is.",
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
