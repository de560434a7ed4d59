"""A timed script: how it is read, and what comes through its door when."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from handsfree.clock import SimulatedClock
from handsfree.errors import WrongUse
from handsfree.hear.script import Asleep, ClockSet, Cut, Moment, Spoken, read_script
from handsfree.hear.script_door import PowerCut, ScriptDoor, TimeUp
from handsfree.signals import Lapsed

START = datetime(2031, 5, 4, 8, tzinfo=UTC)


def script(*texts: str) -> str:
    cues = (f"\n00:00:{second:02}.000 --> 00:00:59.000\n{text}\n" for second, text in enumerate(texts, 1))
    return "WEBVTT\n" + "".join(cues)


READ: tuple[tuple[str, tuple[Moment, ...]], ...] = (
    ("two identifiers", (Spoken(1, "two identifiers", 2),)),
    ('{"clock": "jump", "s": -3600}', (ClockSet(1, -3600),)),
    ('{"sleep": 0.5}', (Asleep(1, 0.5),)),
    ('{"cut": "power"}', (Cut(1),)),
    ('{"silence": true}', ()),
)


@pytest.mark.parametrize(("text", "moments"), READ)
def test_what_a_cue_means(text: str, moments: tuple[Moment, ...]) -> None:
    """Words are said; braces steer."""
    assert moments == read_script(script(text), "a.vtt", lambda said: 2.0)


@pytest.mark.parametrize(
    "text",
    [
        "{",
        "{}",
        '{"sleep": -1}',
        '{"sleep": true}',
        '{"sleep": 1, "cut": "power"}',
        '{"sleep": Infinity}',
        '{"clock": "jump"}',
        '{"clock": "jump", "s": 1e300}',
        '{"clock": "stop", "s": 1}',
        '{"cut": "wire"}',
        '{"silence": false}',
    ],
)
def test_braces_that_steer_nothing_are_refused(text: str) -> None:
    """A steering cue is right to the letter, or refused with its line."""
    with pytest.raises(WrongUse, match=r"^a\.vtt:3: .* does not steer a script"):
        read_script(script(text), "a.vtt", len)


def at(seconds: float) -> datetime:
    return START + timedelta(seconds=seconds)


def door(*moments: Moment) -> tuple[ScriptDoor, SimulatedClock, list[tuple[float, float, str]]]:
    clock, spoken = SimulatedClock(START), []
    return ScriptDoor(moments, clock, 100, lambda *said: spoken.append(said)), clock, spoken


def test_a_sentence_is_heard_at_its_end_and_the_script_ends_in_time() -> None:
    """What falls due before a sentence begins comes first, what falls due in it afterwards."""
    script_door, clock, spoken = door(Spoken(5, "Next, 15!", 2))

    assert (script_door.next(at(5)), clock.now()) == (Lapsed(), at(5))
    heard = script_door.next(at(6))
    assert not isinstance(heard, Lapsed)
    assert (heard.alternatives[0].words, clock.now()) == (("next", "fifteen"), at(7))
    assert (script_door.next(at(6)), clock.now()) == (Lapsed(), at(7))
    with pytest.raises(TimeUp):
        script_door.next(None)
    assert (clock.now(), spoken) == (at(100), [(5, 7, "Next, 15!")])


def test_asleep() -> None:
    """While the machine sleeps nothing is heard, and nothing is due until it wakes; its clock went on."""
    script_door, clock, spoken = door(Asleep(5, 30), Spoken(20, "unheard", 1), Spoken(40, "heard", 1))

    assert not isinstance(script_door.next(at(38)), Spoken)
    assert (clock.now(), spoken) == (at(38), [])
    script_door.next(None)
    assert [text for _, _, text in spoken] == ["heard"]


def test_a_clock_that_is_set_is_seen_after_a_restart() -> None:
    """A program that runs counts on; one that is started afterwards reads the new time."""
    script_door, clock, _ = door(ClockSet(5, 3600), Cut(6), Spoken(10, "next", 1))

    with pytest.raises(PowerCut):
        script_door.next(None)
    assert clock.now() == at(6)
    clock.restart()
    assert clock.now() == at(3606)
    script_door.next(None)
    assert clock.now() == at(3611)
