"""The call word in a session: every command begins with it, but for what answers a question just asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from handsfree.care.vocabulary import vocabulary
from handsfree.errors import UnknownWord, WrongUse
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor
from handsfree.phrases.calling import Call, alike
from handsfree.phrases.spelling import knows_all
from handsfree.testing.dialogue import Talk, talk
from handsfree.testing.doors import FakeDoor, said
from handsfree.wiring import read_shipped, sounds
from tests.dialogues import ORDER, TO_SITE, shipped

HANDS = "Clean your hands, then gloves and eye protection."
GAUGE = "Gloved. Which cannula?"
HOW = "Read the gauge from the pack, for example green eighteen. Take the smallest that does the job."
ASLEEP = "Not listening. Say listen again."
NEEDLE = (
    "Needle stick. Make the sharp safe. Wash with soap and water. Report it at once. Follow local protocol."
)
WINDOW_OVER = "+11"


@cache
def lexicon() -> Lexicon:
    return Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds(), "medic")


def told(
    *script: str, after: tuple[str, ...] = ORDER, change: Callable[[Corridor], None] = lambda corridor: None
) -> Talk:
    return talk((*after, *script), shipped(), lexicon(), change=change)


def answers(*script: str, after: tuple[str, ...] = ORDER) -> tuple[str, ...]:
    return told(*script, after=after).said[len(told(after=after).said) :]


@pytest.mark.parametrize(
    ("script", "said"),
    [
        (("gloved",), (GAUGE,)),
        (("medic gloved",), (GAUGE,)),
        ((WINDOW_OVER, "gloved"), ()),
        ((WINDOW_OVER, "medic gloved"), (GAUGE,)),
        ((WINDOW_OVER, "medic gloved", "how"), (GAUGE, HOW)),
        ((WINDOW_OVER, "next", "we went to the market", "mumble"), ()),
        ((WINDOW_OVER, "medic mumble"), ("Say again?",)),
        (("we went to the market",), ()),
        ((WINDOW_OVER, "needle stick"), (NEEDLE,)),
        ((WINDOW_OVER, "stop", "carry on"), ()),
        ((WINDOW_OVER, "stop", "medic carry on"), (f"Going on. {HANDS}",)),
        ((WINDOW_OVER, "medic ears off", "medic gloved", "medic ears on"), (ASLEEP, f"Listening. {HANDS}")),
    ],
)  # fmt: skip
def test_with_a_call_word(script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """After a question there are ten seconds in which it is not needed; stop and emergencies never need it;
    talk without it gets no answer."""
    assert said == answers(*script)


@pytest.mark.parametrize(
    ("begins_s", "ends_s", "taken"),
    [(9.0, 9.9, True), (9.9, 11.5, True), (10.1, 10.9, False), (10.1, 11.5, False), (9.5, 15.5, False)],
)
def test_an_answer_begun_in_its_window_is_heard_to_its_end(
    begins_s: float, ends_s: float, taken: bool
) -> None:
    """What counts is when the speech began, and the ear hears no longer than it says."""
    answer = replace(said("two identifiers", ends_s), start_s=begins_s)

    def slow(corridor: Corridor) -> None:
        corridor.door = FakeDoor(corridor.clock, answer)  # type: ignore[arg-type]

    ended = told(after=(), change=slow)
    assert taken == ("Two identifiers. Which fluid is ordered?" in ended.said)


def test_correct_without_the_call_word_counts_only_in_its_window() -> None:
    """A "correct" from nearby confirms nothing once the ten seconds after the read-back are over."""
    read_back = (*ORDER[:3], "one litre")
    assert answers(WINDOW_OVER, "correct", after=read_back) == ()
    assert answers(WINDOW_OVER, "medic correct", after=read_back) == (
        "Taken. Over what time, or at what rate?",
    )


def test_a_cue_opens_no_window() -> None:
    """What is due asks nothing: it does not open the ear to others' talk."""
    tied = (*TO_SITE, "left forearm", "tourniquet on")
    assert answers("+61", "i feel the vein", after=tied) == ("Tourniquet, one minute.",)


def test_what_is_kept_is_the_same() -> None:
    """The call word changes nothing of what a sentence means."""
    with_word = told("medic green eighteen and fifteen set").session
    assert with_word.value("gauge") == "18"
    assert with_word.proposal is not None
    assert with_word.proposal.values == {"drop_factor": ("drop_factor", "15")}


@pytest.mark.parametrize("word", ["stop", "nest", "flask", "quite", "next", "cleen", "tag next"])
def test_a_call_word_like_a_command_is_refused(word: str) -> None:
    """It is refused at the start, in one sentence with the word that it sounds like."""
    with pytest.raises(WrongUse, match=f"^The call word “{word}” sounds like “[a-z ]+”.* Take another"):
        Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds(), word)


def test_the_word_itself_is_named_first() -> None:
    """“stop” sounds like “step” too, but it is “stop” that people know."""
    with pytest.raises(WrongUse, match="“stop” sounds like “stop”"):
        Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds(), "stop")


@pytest.mark.parametrize("word", ["medic", "computer", "assistant", "hello nurse", "hands free", "Jasmine"])
def test_a_call_word_of_ones_own(word: str) -> None:
    """Any other word will do, or two of which one is no command."""
    assert Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds(), word).calls


def test_a_call_word_that_the_ear_lacks_is_refused() -> None:
    """It is refused at the start by its name."""
    with pytest.raises(UnknownWord, match="does not know “zyxgrobble”"):
        Lexicon(
            vocabulary(shipped()), read_shipped, lambda word: word != "zyxgrobble", sounds(), "zyxgrobble"
        )


@pytest.mark.parametrize(
    ("one", "other", "like"),
    [
        ("nest", "next", True),
        ("phlash", "flash", True),
        ("klear", "clear", True),
        ("wright", "right", True),
        ("stopp", "stop", True),
        ("medic", "next", False),
        ("nurse", "next", False),
        ("computer", "complete", False),
    ],
)
def test_alike(one: str, other: str, like: bool) -> None:
    """Words sound alike where their sounds fall into the same classes, or one letter is another."""
    assert alike(one, other) is alike(other, one) is like


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        ("hey can you la stop", True),
        ("hey can you la", True),
        ("hey can you", False),
        ("can you la", False),
        ("", False),
    ],
)
def test_speech_begins_with_it(words: str, begins: bool) -> None:
    """In the ear's own spelling."""
    call = Call("hey cannula", lambda word: word != "cannula", {"cannula": ("can you la",)})
    assert call.begins(tuple(words.split())) is begins
