"""A drill in its rooms: its sound in parts, marks at their moments in it; none where none is to be kept."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from handsfree.care.sound_time import tracks
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.keep.journal import SqlJournal
from handsfree.record import Kept, load
from handsfree.rooms import Choices, Rooms
from handsfree.sessions import run_cut_off, run_new
from handsfree.shelf import checklist_from, emergencies
from handsfree.signals import FRAME_S
from handsfree.tape import Tape
from handsfree.testing.ears import FakeEar, FakeSource
from handsfree.testing.voice import FakeVoice
from tests.sound_card import START

DRILL = Choices(Path(), "vosk", kind="drill", sound=True)
BEGIN = [*[""] * 50, "go", *[""] * 50, "missed", *[""] * 50, "note", *[""] * 20, "one two three", *[""] * 30]


def rooms(lines: list[str], minutes: int = 0) -> Rooms:
    """A recording with a tape before its door, so many minutes after the start."""
    tape, ear, clock = Tape(), FakeEar(), SoundClock(START + timedelta(minutes=minutes))
    door = SoundDoor(tape.tap(FakeSource(*lines)), ear, clock)
    return Rooms(ear, door, FakeVoice(), clock, deaf=False, aloud=False, tape=tape)


def kept(folder: Path, session: str) -> Kept:
    with closing(SqlJournal(folder)) as journal:
        return load(journal, session, emergencies())


def test_it_goes_on_with_a_new_part_of_its_sound(tmp_path: Path) -> None:
    """Resumed without a word about sound, it keeps sound as it did; the run goes on where it was."""
    choices = replace(DRILL, sessions=tmp_path)
    _, record = run_new(checklist_from("site_check"), choices, rooms(BEGIN))
    run_cut_off(
        record.session, Choices(tmp_path, "vosk"), rooms([*[""] * 40, "unsafe", *[""] * 30], minutes=5)
    )
    whole = kept(tmp_path, record.session)
    (run,) = whole.session.runs

    assert [mark.kind.value for mark in run.marks] == ["missed", "note", "unsafe"]
    assert [track.file[-6:] for track in tracks(whole.records)] == ["-1.ogg", "-2.ogg"]


def test_a_mark_is_found_in_the_sound(tmp_path: Path) -> None:
    """Where its word ended, not where it was decided; the words of a note are a clip besides."""
    _, record = run_new(checklist_from("site_check"), replace(DRILL, sessions=tmp_path), rooms(BEGIN))
    whole = kept(tmp_path, record.session)
    (track,) = tracks(whole.records)
    missed, note = whole.session.runs[0].marks

    assert track.sound_s(missed.at) == pytest.approx((BEGIN.index("missed") + 1) * FRAME_S, abs=0.05)
    assert (tmp_path / note.sound).is_file()


def test_no_sound(tmp_path: Path) -> None:
    """Neither all of it nor the words of a note; the marks are there."""
    choices = replace(DRILL, sessions=tmp_path, sound=False)
    session, _ = run_new(checklist_from("site_check"), choices, rooms(BEGIN))

    assert ["missed", "note"] == [mark.kind.value for mark in session.run.marks]
    assert not (tmp_path / "sound").exists()
