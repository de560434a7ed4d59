"""The sound of a session is kept with it, and each moment of the record is found in it again."""

from __future__ import annotations

from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

import pytest
import soundfile

from handsfree.care import events as e
from handsfree.care.sound_time import tracks
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.keep.journal import SqlJournal
from handsfree.record import load
from handsfree.rooms import Choices, Rooms
from handsfree.sessions import run_cut_off, run_new
from handsfree.shelf import checklist_from, emergencies
from handsfree.signals import FRAME_S
from handsfree.tape import Tape
from handsfree.testing.ears import FakeEar, FakeSource
from handsfree.testing.voice import FakeVoice
from tests.sound_card import START, WITHIN_S, Card, busy, drifting
from tests.sound_trial import trial

LINES = [""] * 400 + ["all done", ""] + [""] * 30
"""Frames of silence, and words at one place in them; then the recording ends."""


def rooms(*, at: datetime = START) -> Rooms:
    """A recording with a tape running."""
    tape, ear, clock = Tape(), FakeEar(), SoundClock(at)
    door = SoundDoor(tape.tap(FakeSource(*LINES)), ear, clock)
    return Rooms(ear, door, FakeVoice(), clock, deaf=False, aloud=False, tape=tape)


def kept(folder: Path, session: str) -> tuple[e.Recorded, ...]:
    with closing(SqlJournal(folder)) as journal:
        return load(journal, session, emergencies()).records


def test_every_moment_of_the_record_is_found_in_the_sound(
    tmp_path: Path, capsys: pytest.CaptureFixture
) -> None:
    """The file is as long as the recording; a sentence stands where it was heard; where the sound lies and
    how it is erased is said at the start."""
    choices, room = Choices(tmp_path, "vosk", sound=True), rooms()
    _, record = run_new(checklist_from("site_check"), choices, room)
    records = kept(tmp_path, record.session)
    (track,) = tracks(records)
    heard = next(one for one in records if isinstance(one.event, e.SpeechNotUnderstood | e.SpeechUnderstood))

    assert track.length_s == pytest.approx(len(LINES) * FRAME_S)
    assert soundfile.info(tmp_path / track.file).duration == pytest.approx(track.length_s, abs=0.001)
    assert track.sound_s(heard.at) == pytest.approx(402 * FRAME_S, abs=0.002)
    assert f"handsfree sessions --erase {record.session}" in capsys.readouterr().err
    assert any("sound is being kept" in said for said in room.voice.said)


def test_a_session_that_goes_on_has_a_second_file(tmp_path: Path) -> None:
    """Each moment stands where it was heard, in the file that was written then."""
    choices = Choices(tmp_path, "vosk", sound=True)
    _, record = run_new(checklist_from("site_check"), choices, rooms())
    later = START + timedelta(hours=1)
    run_cut_off(record.session, choices, rooms(at=later))
    first, second = tracks(kept(tmp_path, record.session))

    assert (first.file[-6:], second.file[-6:]) == ("-1.ogg", "-2.ogg")
    for at, track in ((START + timedelta(seconds=5), first), (later + timedelta(seconds=5), second)):
        assert track.sound_s(at) == pytest.approx(5, abs=0.002)


def test_no_sound_unless_it_was_chosen(tmp_path: Path) -> None:
    """Without a tape no sound is kept, and nothing is said of it."""
    room = rooms()
    without = Rooms(room.ear, room.door, room.voice, room.clock, deaf=False, aloud=False)
    run_new(checklist_from("site_check"), Choices(tmp_path, "vosk"), without)

    assert not (tmp_path / "sound").exists()


def test_a_minute_of_a_card_that_drifts(tmp_path: Path) -> None:
    """Beeps at known moments are in the file where the journal says, though the card is off by 30 ms in the
    end; nothing is lost on a busy machine, and the file grows as Opus does. (`tests.bench.soundtrack`: hours)
    """
    found = trial(tmp_path, Card(drifting(500), busy), 60, every_s=3)

    assert found.beeps == 19
    assert found.worst_s < WITHIN_S
    assert found.late == ()
    assert 8_000 < 8 * found.size / 60 < 48_000
    assert found.memory_kb[-1] - found.memory_kb[8] < 2_000
