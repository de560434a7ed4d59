"""A tap gets all that goes through the door, and changes nothing of it."""

from __future__ import annotations

from datetime import UTC, datetime

from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.hear.tapped import Tapped
from handsfree.signals import FRAME_S, Closed, Frame, Gate, Utterance
from handsfree.testing.ears import FakeEar, FakeSource
from handsfree.testing.sentences import ListedSentences
from handsfree.testing.source_contract import check_frames

START = datetime(2031, 5, 4, 8, tzinfo=UTC)
LINES = ("", "go", "back", "", "", "next", "")


def test_it_is_a_source() -> None:
    """It keeps to the contract of all sources."""
    check_frames(Tapped(FakeSource(*LINES), lambda frame: None), at_least=len(LINES))


def test_it_gets_every_frame_once_the_door_has_it() -> None:
    """Deaf or not, each frame comes, in order, when the clock of the recording shows its end."""
    clock, got = SoundClock(START), list[tuple[Frame, datetime]]()
    tapped = Tapped(FakeSource(*LINES), lambda frame: got.append((frame, clock.now())))
    door = SoundDoor(tapped, FakeEar(), clock)
    door.open(ListedSentences("go back", "next"), Gate.OPEN, "")
    first = door.next(None)
    door.open(ListedSentences("go back", "next"), Gate.DEAF, "")
    rest = door.next(None)

    assert isinstance(first, Utterance)
    assert isinstance(rest, Closed)
    assert [frame for frame, _ in got] == list(FakeSource(*LINES).frames())
    for number, (_, at) in enumerate(got, 1):
        assert abs((at - START).total_seconds() - number * FRAME_S) < 1e-3
