"""The sound of a session on the time line of a run."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.show.debrief.run import Lost
from handsfree.show.debrief.sounds import lost, sounds
from handsfree.show.debrief.tracks import along
from handsfree.testing.dialogue import START
from handsfree.timeline import Anchor, LostBy, Silence

FILE = "sound/drill/soundtrack-1.ogg"


def after(seconds: float) -> timedelta:
    return timedelta(seconds=seconds)


RECORDS = [
    e.Recorded(START, e.SoundStarted(FILE, START + after(1.0))),
    e.Recorded(START, e.SoundSynchronised(FILE, Anchor(3600.0, START + after(3601.36), 100.0))),
    e.Recorded(START, e.SoundMissed(FILE, Silence(1800.0, 2.5, LostBy.DEVICE))),
    e.Recorded(START, e.SoundStopped(FILE, 7200.0)),
]
"""A sound card whose hour is 0.36 s too long, and 2.5 s that never came."""


@pytest.mark.parametrize("began_s", [0.0, 600.0], ids=["first trainee", "second trainee"])
def test_each_second_of_sound_has_its_moment(began_s: float) -> None:
    """Counted from the run's own beginning, on to the end of the file at the pace that was measured."""
    (sound,) = sounds(RECORDS, START + after(began_s))

    assert FILE == sound.file
    for sound_s, at_s in ((0.0, 1.0), (1800.0, 1801.18), (3600.0, 3601.36), (7200.0, 7201.72)):
        assert at_s - began_s == pytest.approx(along(sound.anchors, sound_s), abs=0.001)


def test_a_file_that_was_cut_off() -> None:
    """Without its end, time goes on as it began."""
    (sound,) = sounds(RECORDS[:1], START)

    assert 101.0 == along(sound.anchors, 100.0)


def test_lost_sound_has_its_place() -> None:
    """Where silence stands in its place, and why."""
    assert [Lost(1801.18, 2.5, "lost on the way from the microphone")] == list(lost(RECORDS, START))


def test_an_anchor_at_the_very_end() -> None:
    """The length and an anchor there may differ by less than a sample; each moment has its place."""
    ends = 288.864, 288.86400000000003
    records = [
        e.Recorded(START, e.SoundStarted(FILE, START)),
        e.Recorded(START, e.SoundSynchronised(FILE, Anchor(ends[0], START + after(ends[0])))),
        e.Recorded(START, e.SoundStopped(FILE, ends[1])),
    ]
    (sound,) = sounds(records, START)
    back = [(at_s, sound_s) for sound_s, at_s in sound.anchors]

    assert [ends[0], 300.0] == [pytest.approx(along(back, at_s)) for at_s in (ends[0], 300.0)]
