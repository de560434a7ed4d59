"""The corridor: write, then speak; what fails is said once, and the session goes on."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from handsfree.care import events as e
from handsfree.errors import SoundError, StoreFailed
from handsfree.loop import Corridor
from handsfree.record import CODEC
from handsfree.signals import Alternative, Closed, Gate, Lapsed, Noticed, Trouble, Utterance
from handsfree.testing.dialogue import SESSION, START, ScriptVoice, Talk
from handsfree.testing.voice import FakeVoice
from tests.dialogues import ORDER, told


def kept(talk: Talk) -> list[e.Event]:
    return [CODEC.decode(row) for row in talk.journal.read(SESSION)]


def test_every_sentence_is_kept_before_it_is_said() -> None:
    """When the voice is called, its sentence is in the journal already."""
    late: list[str] = []

    class Watching(FakeVoice):
        def say(self, text: str) -> float:
            if text not in written:
                late.append(text)
            return super().say(text)

    written: list[str] = []

    def watched(corridor: Corridor) -> None:
        keep = corridor.keep

        def keeping(records: Iterable[e.Recorded]) -> None:
            records = list(records)
            keep(records)
            written.extend(one.event.text for one in records if isinstance(one.event, e.Announced))

        corridor.keep, corridor.voice, corridor.aloud = keeping, Watching(), False

    talk = told(*ORDER, "+60", change=watched)
    assert late == []
    assert len(written) == len(talk.corridor.voice.said) == len(ORDER) + 1  # type: ignore[attr-defined]


def test_what_was_said_was_played() -> None:
    """Each sentence is announced, and played once it was said to its end."""
    events = kept(told(*ORDER))
    announced = [event.text for event in events if isinstance(event, e.Announced)]
    assert announced == [event.text for event in events if isinstance(event, e.Played)]
    assert len(announced) == len(ORDER) + 1


def test_a_store_that_fails_is_said_once() -> None:
    """In mid-session the program says that nothing is recorded, once, and goes on."""

    def failing(corridor: Corridor) -> None:
        keep, left = corridor.keep, [5]

        def keeping(records: Iterable[e.Recorded]) -> None:
            left[0] -= 1
            if left[0] < 0:
                raise StoreFailed("The disk is full.")
            keep(records)

        corridor.keep = keeping

    talk = told(*ORDER, "gloved", change=failing)
    warnings = [line for line in talk.said if "not being recorded" in line]
    assert warnings == ["Warning. This is not being recorded."]
    assert talk.last == "Gloved. Which cannula?"


def test_repeat_after_the_warning() -> None:
    """The sentence to be said again is the last one of the session."""

    def failing(corridor: Corridor) -> None:
        def keeping(records: Iterable[e.Recorded]) -> None:
            raise StoreFailed("The disk is full.")

        corridor.keep = keeping

    talk = told("two identifiers", "repeat", change=failing)
    assert talk.last == talk.said[-2] == "Two identifiers. Which fluid is ordered?"


def test_a_dead_loudspeaker_is_recorded_and_printed() -> None:
    """What could not be said aloud is printed with the reason, kept as failed, and the session goes on."""
    printed: list[str] = []

    def broken(corridor: Corridor) -> None:
        voice = FakeVoice()
        voice.broken = True
        corridor.voice, corridor.spare = voice, ScriptVoice(printed)

    talk = told("two identifiers", "normal saline", change=broken)
    failed = [event for event in kept(talk) if isinstance(event, e.PlayingFailed)]
    assert len(failed) == 3
    assert failed[-1] == e.PlayingFailed(
        "Sodium chloride zero point nine percent. Correct?", "The fake voice is broken."
    )
    assert printed[-1] == (
        "Sodium chloride zero point nine percent. Correct? (The fake voice is broken. Mend it.)"
    )
    assert not [event for event in kept(talk) if isinstance(event, e.Played)]


def test_stop_hushes_at_once() -> None:
    """At "stop" the voice falls silent, and what it was saying does not count as played."""
    voice = FakeVoice()

    def speaking(corridor: Corridor) -> None:
        corridor.voice = voice

    talk = told("+60", "two identifiers", "stop", "+60", change=speaking)
    assert voice.hushes == 1
    assert [type(event) for event in kept(talk)][-2:] == [e.SpeechUnderstood, e.Held]
    assert len([event for event in kept(talk) if isinstance(event, e.Played)]) == 1


class WatchedDoor:
    """A door that notes each gate and ends after some lapses."""

    def __init__(self, corridor: Corridor) -> None:
        self.clock, self.gates, self.left = corridor.clock, list[Gate](), 3

    def open(self, sentences: object, gate: Gate, asks: str) -> None:
        self.gates.append(gate)

    def next(self, until: object) -> Utterance | Lapsed | Closed:
        self.left -= 1
        if self.left == 0:
            return Closed("done")
        if until is not None:
            self.clock.advance((until - self.clock.now()).total_seconds())  # type: ignore[attr-defined,operator]
            return Lapsed()
        return Utterance((Alternative(("gloved",)),))


@pytest.mark.parametrize(("deaf", "first"), [(True, Gate.DEAF), (False, Gate.OPEN)])
def test_the_ear_is_deaf_while_the_program_speaks(deaf: bool, first: Gate) -> None:
    """Where the program would hear itself the gate is shut until it has spoken; otherwise never."""
    doors: list[WatchedDoor] = []

    def aloud(corridor: Corridor) -> None:
        corridor.voice, corridor.deaf = FakeVoice(), deaf
        doors.append(WatchedDoor(corridor))
        corridor.door = doors[0]  # type: ignore[assignment]

    talk = told(change=aloud)
    assert doors[0].gates[:2] == [first, Gate.OPEN]
    assert isinstance(kept(talk)[-1], (e.Announced, e.Played, e.SessionEnded))
    assert talk.corridor.clock.now() > START


def test_what_was_heard_is_shown() -> None:
    """The screen is told each sentence as it was understood; what was not stands in brackets."""
    shown: list[str] = []

    def watching(corridor: Corridor) -> None:
        corridor.overheard = lambda at, text: shown.append(text)

    told("two identifiers", "mumble", "...", "normal saline", change=watching)
    assert shown == ["two identifiers", "(mumble)", "normal saline"]


class DyingDoor:
    """A microphone that is unplugged at once."""

    def open(self, sentences: object, gate: Gate, asks: str) -> None:
        """Take what may be heard."""

    def next(self, until: object) -> Utterance | Lapsed | Closed:
        """Fail as a device does."""
        raise SoundError("The microphone is gone.", "Plug it in and say: handsfree resume.")


def test_a_microphone_that_dies_is_said_at_once() -> None:
    """It is said aloud and kept, and then the run ends with the error."""
    voice = FakeVoice()

    def dying(corridor: Corridor) -> None:
        corridor.door, corridor.voice = DyingDoor(), voice

    with pytest.raises(SoundError):
        told("next", change=dying)
    assert voice.said[-1].startswith("I cannot hear you. The microphone is gone.")


class TroubledDoor:
    """A microphone that goes dead, comes back, and ends."""

    def __init__(self) -> None:
        self.left = [Noticed(Trouble.DEAD), Noticed(Trouble.DEAD, over=True), Closed("done")]

    def open(self, sentences: object, gate: Gate, asks: str) -> None:
        """Take what may be heard."""

    def next(self, until: object) -> Noticed | Closed:
        """Tell the next thing."""
        return self.left.pop(0)


def test_trouble_with_the_sound_is_said_and_kept() -> None:
    """It is said with the next step when it begins, and that it is over; both stand in the record."""
    voice = FakeVoice()

    def troubled(corridor: Corridor) -> None:
        corridor.door, corridor.voice = TroubledDoor(), voice

    talk = told(change=troubled)
    events = [event for event in kept(talk) if isinstance(event, e.SoundTroubled | e.SoundMended)]
    assert events == [e.SoundTroubled(Trouble.DEAD), e.SoundMended(Trouble.DEAD)]
    assert voice.said[1:3] == [
        "I hear nothing at all. See that the microphone is on, and not muted.",
        "The microphone is back.",
    ]
