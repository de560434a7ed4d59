"""The corridor while the program speaks: what it must not hear, and what must be heard."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest

from handsfree.care import events as e
from handsfree.care.commands import Say
from handsfree.clock import SoundClock
from handsfree.loop import Corridor
from handsfree.mouth import ECHO_S
from handsfree.record import CODEC
from handsfree.say.length import spoken_length_s
from handsfree.signals import Utterance
from handsfree.testing.dialogue import SESSION
from handsfree.testing.doors import FakeDoor, said
from handsfree.testing.voice import FakeVoice
from tests.dialogues import told


@dataclass(slots=True)
class Spoken:
    """A session whose voice takes its time, with people talking at set seconds."""

    deaf: bool
    lines: tuple[tuple[str, float], ...]
    aloud: bool = True
    voice: FakeVoice = field(default_factory=FakeVoice)

    def run(self) -> list[e.Event]:
        """Let it run until nothing more is said; what was kept."""

        def changed(corridor: Corridor) -> None:
            assert isinstance(corridor.clock, SoundClock)
            corridor.mouth.voice, corridor.mouth.deaf, corridor.mouth.aloud = (
                self.voice,
                self.deaf,
                self.aloud,
            )
            corridor.door = FakeDoor(corridor.clock, *(said(text, at_s) for text, at_s in self.lines))

        journal = told(change=changed).journal
        return [CODEC.decode(row) for row in journal.read(SESSION)]

    def understood(self) -> list[str]:
        """What counted, in order: not what was refused."""
        return [
            event.text
            for event, then in pairwise((*self.run(), None))
            if isinstance(event, e.SpeechUnderstood) and not isinstance(then, e.CommandRefused)
        ]


OPENING_S = spoken_length_s(told().corridor.mouth.last_said)
FLUID_S = OPENING_S + 0.5 + spoken_length_s(told("two identifiers").last)
READ_BACK_S = FLUID_S + 0.5 + spoken_length_s(told("two identifiers", "saline").last)
TO_READ_BACK = (("two identifiers", OPENING_S + 0.5), ("saline", FLUID_S + 0.5))
"""A read-back that has been said to its end at READ_BACK_S."""


@pytest.mark.parametrize(
    ("deaf", "at_s", "heard"),
    [
        (True, OPENING_S - 0.1, []),
        (True, OPENING_S + ECHO_S - 0.1, []),
        (True, OPENING_S + ECHO_S + 0.1, ["two identifiers"]),
        (False, 0.5, ["two identifiers"]),
    ],
)
def test_deaf_to_its_own_voice_and_its_echo(deaf: bool, at_s: float, heard: list[str]) -> None:
    """Without a headset nothing is heard while it speaks, nor before the room is silent; with one, all."""
    assert heard == Spoken(deaf, (("two identifiers", at_s),)).understood()


@pytest.mark.parametrize("word", ["stop", "quiet", "be quiet"])
def test_with_a_headset_a_word_hushes_it_at_once(word: str) -> None:
    """It falls silent in mid-sentence, and that sentence does not count as played."""
    session = Spoken(False, ((word, 0.5),))
    events = session.run()
    assert session.voice.hushes == 1
    assert [type(event) for event in events if isinstance(event, e.Held | e.Played)] == [e.Held]


@pytest.mark.parametrize(
    ("at_s", "confirms"), [(-1.0, False), (-0.1, False), (0.1, True), (29.5, True), (30.5, False)]
)
def test_what_confirms_has_its_window(at_s: float, confirms: bool) -> None:
    """With a headset, "correct" counts from the end of the read-back, and for half a minute."""
    understood = Spoken(False, (*TO_READ_BACK, ("correct", READ_BACK_S + at_s))).understood()
    assert understood == ["two identifiers", "saline", *(["correct"] if confirms else [])]


def test_what_nobody_hears_is_said_at_once() -> None:
    """Where nobody hears it speak, as with speech into a file, it can be answered at once."""
    assert "correct" in Spoken(False, (*TO_READ_BACK, ("correct", FLUID_S + 0.6)), aloud=False).understood()


@pytest.mark.parametrize("late_s", [0.0, 0.9])
def test_words_ended_when_they_were_heard(late_s: float) -> None:
    """However long the machine took until they were understood: a tie is timed from when it was said."""
    moments: list[timedelta] = []

    def changed(corridor: Corridor) -> None:
        plain, door = corridor.conduct.decide, corridor.door.next

        def kept(session: Any, command: Any, at: datetime) -> Any:
            if isinstance(command, Say):
                assert command.said_at is not None
                moments.append(at - command.said_at)
            return plain(session, command, at)

        def late(until: datetime | None) -> Any:
            one = door(until)
            return replace(one, late_s=late_s) if isinstance(one, Utterance) else one

        corridor.conduct = replace(corridor.conduct, decide=kept)
        corridor.door.next = late  # type: ignore[method-assign]

    told("two identifiers", change=changed)
    assert [timedelta(seconds=late_s)] == moments
