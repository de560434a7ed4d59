"""The flow by ear: the beat follows the order and the voice, and a count tells how far off the drops are."""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction
from math import floor

import pytest

from handsfree.care.session import Session
from handsfree.conducts.guide import GUIDE
from handsfree.loop import Corridor
from handsfree.signals import Closed, Lapsed, Noticed, Stirred, Utterance
from handsfree.testing.dialogue import Talk
from tests.dialogues import ORDER, RUN, TO_RUN, told

TO_COUNT = (*TO_RUN, *RUN[:2])

DIALOGUES: list[tuple[str, tuple[str, ...], tuple[str, ...]]] = [
    (
        "the beat ticks at the order's rate, a twentieth faster or slower when asked, and says how far off",
        ("start ticking", "a bit faster", "slower", "slower", "stop ticking"),
        (
            "Forty two drops a minute, as wanted.",
            "Forty four drops a minute, five percent too fast.",
            "Forty two drops a minute, as wanted.",
            "Forty drops a minute, five percent too slow.",
            "The beat is off.",
        ),
    ),
    (
        "a count runs from the word now, asks how many, and the number closes the step",
        ("count for thirty seconds", "+29", "+1", "twenty one drops"),
        (
            "Count for thirty seconds, from: now.",
            "Stop. How many drops?",
            "Twenty one drops in thirty seconds. Look at site and flow once more before you leave.",
        ),
    ),
    (
        "a number counts only when it was asked for",
        ("twenty one", "count the drops", "twenty one", "+60", "forty two"),
        (
            "No step waits for that now. To ask, begin with: what rate is.",
            "Count for one minute, from: now.",
            "No step waits for that now. To ask, begin with: what rate is.",
            "Stop. How many drops?",
            "Forty two drops in sixty seconds. Look at site and flow once more before you leave.",
        ),
    ),
    (
        "an emergency ends the beat and the count",
        ("start ticking", "count the drops", "+20", "air in the line", "+60", "faster", "count the drops"),
        (
            "Forty two drops a minute, as wanted.",
            "Count for one minute, from: now.",
            "Air in the line. Close the clamp first. Do not run it. If air went in: left side, head down,"
            " call for help. Follow local protocol.",
            "Nothing ticks now. Say start ticking once the bag hangs.",
            "Count for one minute, from: now.",
        ),
    ),
    (
        "whoever moves the clamp counts from the beginning",
        ("count the drops", "+20", "too fast", "+60"),
        (
            "Count for one minute, from: now.",
            "Move the clamp a little, wait, and count again."
            " Count the drops. Say how many in fifteen, thirty or sixty seconds.",
        ),
    ),
    (
        "a count that nobody answers is dropped",
        ("count for fifteen seconds", "+15", "+60", "ten"),
        (
            "Count for fifteen seconds, from: now.",
            "Stop. How many drops?",
            "No step waits for that now. To ask, begin with: what rate is.",
        ),
    ),
]


@pytest.mark.parametrize(("what", "said", "answers"), DIALOGUES, ids=[one[0] for one in DIALOGUES])
def test_dialogue(what: str, said: tuple[str, ...], answers: tuple[str, ...]) -> None:
    """What is said at the clamp, line by line."""
    assert answers == told(*said, after=TO_COUNT).said


def test_the_beat_never_stands_still() -> None:
    """However often it is asked to be slower, a drop a minute ticks."""
    talk = told("start ticking", *["slower"] * 25, after=TO_COUNT)
    assert talk.last == "One drop a minute, ninety eight percent too slow."


@pytest.mark.parametrize("said", ["start ticking", "count the drops", "faster", "beat off"])
def test_before_there_is_a_rate_it_is_refused(said: str) -> None:
    """Nothing ticks, and nothing is counted, before the order is known."""
    (refused,) = told(said, after=ORDER[:3]).said
    assert refused.startswith(("No bag is running yet", "Nothing ticks now"))


@pytest.mark.parametrize("over_s", [15, 30, 60])
@pytest.mark.parametrize("off", [Fraction(11, 10), Fraction(9, 10), Fraction(6, 5), Fraction(4, 5)])
def test_count_finds_what_a_chamber_really_does(off: Fraction, over_s: int) -> None:
    """A simulated chamber drips 10 or 20 % off; what is said of the count holds the truth within one drop."""
    wanted = Fraction(1000 * 20, 480)
    truth = wanted * off
    drops = floor(truth * over_s / 60)
    window = {15: "fifteen", 30: "thirty", 60: "sixty"}[over_s]
    talk = told(f"count for {window} seconds", f"+{over_s}", str(drops), after=TO_COUNT)
    counted, one_drop = Fraction(drops * 60, over_s), Fraction(60, over_s)

    assert abs(truth - counted) < one_drop
    if abs(counted - wanted) > max(wanted / 10, one_drop):
        turn = "Too fast: close" if off > 1 else "Too slow: open"
        assert f"one drop more or less is {SPOKEN[over_s]} a minute" in talk.said[-1]
        assert turn in talk.said[-1]
    else:
        assert "Look at site and flow" in talk.said[-1]


SPOKEN = {15: "four", 30: "two", 60: "one"}


def test_beat_is_heard_but_in_silence_and_while_somebody_counts() -> None:
    """Off while drops are counted, and while silence is kept; on again afterwards; off at the end."""
    beats: list[Fraction | None] = []
    lines = ("start ticking", "count for fifteen seconds", "+15", "ten", "stop", "carry on", "stop ticking")

    def listened(corridor: Corridor[Session]) -> None:
        corridor.mouth.voice.beat = beats.append  # type: ignore[method-assign]

    told(*lines, after=TO_COUNT, change=listened)
    wanted = Fraction(1000 * 20, 480)

    assert [wanted, None, wanted, None, wanted, None] == beats


def test_beat_is_quiet_while_somebody_speaks() -> None:
    """From when speech begins until it is over, long before it is understood."""
    beats: list[Fraction | None] = []

    def stirred(corridor: Corridor[Session]) -> None:
        door, left = corridor.door.next, list[Utterance | Stirred]()

        def announced(until: datetime | None) -> Utterance | Stirred | Noticed | Lapsed | Closed:
            if not left and isinstance(one := door(until), Utterance):
                left.extend([Stirred(True), one, Stirred(False)])
            return left.pop(0) if left else one

        corridor.door.next = announced  # type: ignore[method-assign]
        corridor.mouth.voice.beat = beats.append  # type: ignore[method-assign]

    told("start ticking", "how", "what ever that is", "stop ticking", after=TO_COUNT, change=stirred)
    wanted = Fraction(1000 * 20, 480)

    assert [wanted, None, wanted, None, wanted, None] == beats


def test_record_tells_the_same() -> None:
    """The session that is folded from its record has the same beat and the same count."""
    talk: Talk = told("start ticking", "faster", "count for sixty seconds", "+20", after=TO_COUNT)

    assert talk.session.beat is not None
    assert talk.session.window is not None
    assert None is GUIDE.beat(talk.session)
