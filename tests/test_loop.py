"""The corridor: write, then speak; what fails is said once, and the session goes on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import pytest

from handsfree.care import events as e
from handsfree.errors import SoundError, StoreFailed
from handsfree.loop import Corridor
from handsfree.ports import Row
from handsfree.record import CODEC, Record, load
from handsfree.shelf import emergencies
from handsfree.signals import Alternative, Closed, Gate, Lapsed, Noticed, Trouble, Utterance
from handsfree.testing.dialogue import SESSION, START, ScriptVoice, Talk
from handsfree.testing.journal import MemoryJournal
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

        def keeping(records: Iterable[e.Recorded]) -> str:
            records = list(records)
            warning = keep(records)
            written.extend(one.event.text for one in records if isinstance(one.event, e.Announced))
            return warning

        corridor.keep, corridor.mouth.voice, corridor.mouth.aloud = keeping, Watching(), False

    talk = told(*ORDER, "+60", change=watched)
    assert late == []
    assert len(written) == len(talk.corridor.mouth.voice.said) == len(ORDER) + 1  # type: ignore[attr-defined]


def test_what_was_said_was_played() -> None:
    """Each sentence is announced, and played once it was said to its end."""
    events = kept(told(*ORDER))
    announced = [event.text for event in events if isinstance(event, e.Announced)]
    assert announced == [event.text for event in events if isinstance(event, e.Played)]
    assert len(announced) == len(ORDER) + 1


class FailingJournal(MemoryJournal):
    """A journal that takes nothing from one batch on, up to another."""

    def __init__(self, first: int, last: int) -> None:
        super().__init__()
        self.tries, self._fails = 0, range(first, last + 1)

    def append(self, rows: Iterable[Row]) -> None:
        self.tries += 1
        if self.tries in self._fails:
            raise StoreFailed("The disk with /x is full.", "Free some space.", "The disk is full.")
        super().append(rows)


def on(journal: MemoryJournal) -> dict[str, Callable[[Corridor[Any]], None]]:
    """What puts a session on this journal."""

    def change(corridor: Corridor[Any]) -> None:
        corridor.keep = Record(journal, SESSION).keep

    return {"change": change}


WARNING = "Warning. This is not being recorded. The disk is full."


def test_a_store_that_fails_is_said_at_each_step() -> None:
    """In mid-session the program says that it does not record, and why; then at each step; and goes on."""
    talk = told("two identifiers", "normal saline", "correct", **on(FailingJournal(4, 1000)))
    assert talk.said == (
        "Two identifiers. Which fluid is ordered?",
        WARNING,
        "Sodium chloride zero point nine percent. Correct?",
        "Not recorded.",
        "Taken. What volume?",
        "Not recorded.",
    )


def test_a_store_that_comes_back_gets_what_was_held() -> None:
    """Once it takes rows again it gets all, in order; what was said meanwhile stands in the record."""
    journal = FailingJournal(4, 4)
    talk = told("two identifiers", "normal saline", "+6", "correct", "one litre", **on(journal))
    rows = journal.read(SESSION)
    events = [CODEC.decode(row) for row in rows]

    assert [row.seq for row in rows] == list(range(1, len(rows) + 1))
    assert "Recording again. Nothing is missing." in talk.said
    assert [one.text for one in events if isinstance(one, e.Announced)][1:] == list(talk.said)
    assert load(journal, SESSION, emergencies()).session == talk.session


def test_a_store_that_fails_is_not_asked_at_each_word() -> None:
    """A locked database makes each try a wait: within five seconds of one that failed there is none."""
    journal = FailingJournal(4, 1000)
    told("two identifiers", "normal saline", "correct", "one litre", **on(journal))
    assert journal.tries == 4


def test_no_session_starts_that_cannot_be_kept() -> None:
    """Where not even the beginning is kept, nothing is said and nothing goes on."""
    with pytest.raises(StoreFailed, match="is full"):
        told("two identifiers", **on(FailingJournal(1, 1000)))


def test_what_is_still_held_at_the_end_is_told() -> None:
    """A session that ends before the store came back says how much of it is lost; else it writes it."""
    for last, lost in ((1000, True), (4, False)):
        journal = FailingJournal(2, last)
        record = Record(journal, SESSION)
        record.keep([e.Recorded(START, e.Held())])
        assert record.keep([e.Recorded(START, e.Announced("Held."))]) == WARNING
        record.keep([e.Recorded(START, e.Released())])
        if lost:
            with pytest.raises(StoreFailed, match=f"The last 3 rows of session {SESSION} are not kept"):
                record.close()
        else:
            journal.tries = last
            record.close()
            assert len(journal.read(SESSION)) == 4


def test_repeat_after_the_warning() -> None:
    """The sentence to be said again is the last one of the session."""
    talk = told("two identifiers", "repeat", **on(FailingJournal(4, 1000)))
    assert talk.said[-2:] == ("Two identifiers. Which fluid is ordered?", "Not recorded.")


def test_sound_that_cannot_be_kept_is_told() -> None:
    """A reason whose sound finds no room is taken all the same, as unverified words; that is said."""

    def full(corridor: Corridor[Any]) -> None:
        def clip(pcm: bytes) -> str:
            raise StoreFailed("The disk is full.")

        corridor.clip = clip

    talk = told("skip", "the strap is torn", change=full)
    assert talk.said[-2:] == ("The sound of that was not kept.", "Left out: patient. Which fluid is ordered?")
    (skipped,) = [event for event in kept(talk) if isinstance(event, e.StepSkipped)]
    assert (skipped.reason, skipped.sound) == ("the strap is torn", "")


def test_a_dead_loudspeaker_is_recorded_and_printed() -> None:
    """What could not be said aloud is printed with the reason, kept as failed, and the session goes on."""
    printed: list[str] = []

    def broken(corridor: Corridor) -> None:
        voice = FakeVoice()
        voice.broken = True
        corridor.mouth.voice, corridor.mouth.spare = voice, ScriptVoice(printed)

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
        corridor.mouth.voice = voice

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
        corridor.mouth.voice, corridor.mouth.deaf = FakeVoice(), deaf
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
        raise SoundError("The microphone is gone.", "Plug it in.")


def test_a_microphone_that_dies_is_said_at_once() -> None:
    """It is said aloud and kept, and then the run ends with the error, which tells how to go on."""
    voice = FakeVoice()

    def dying(corridor: Corridor) -> None:
        corridor.door, corridor.mouth.voice = DyingDoor(), voice

    with pytest.raises(SoundError, match=r"gone\. Plug it in\. Then go on: handsfree resume\."):
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
        corridor.door, corridor.mouth.voice = TroubledDoor(), voice

    talk = told(change=troubled)
    events = [event for event in kept(talk) if isinstance(event, e.SoundTroubled | e.SoundMended)]
    assert events == [e.SoundTroubled(Trouble.DEAD), e.SoundMended(Trouble.DEAD)]
    assert voice.said[1:3] == [
        "I hear nothing at all. See that the microphone is on, and not muted.",
        "The microphone is back.",
    ]
