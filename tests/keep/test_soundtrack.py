"""The sound of a session is on the disk as it was heard, whatever happens to the program."""

from __future__ import annotations

import multiprocessing
import os
import random
import shutil
import subprocess
from collections.abc import Iterable
from multiprocessing.connection import Connection
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.errors import StoreFailed
from handsfree.keep.soundtrack import WAITING_S, Soundtrack
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE, Frame, Taken
from handsfree.timeline import LostBy, Silence
from tests.keep.test_disks import small

KILLS = 4
WHOLE, LOST = Taken(), Taken(lost=True)


def frame(number: int, taken: Taken = WHOLE) -> Frame:
    """One piece of a tone that goes on from frame to frame; numbers count from 1."""
    samples = np.arange((number - 1) * FRAME_SAMPLES, number * FRAME_SAMPLES)
    tone = 8000 * np.sin(2 * np.pi * 440 * samples / SAMPLE_RATE)
    pcm = bytes(2 * FRAME_SAMPLES) if taken.lost else tone.astype("<i2").tobytes()
    return Frame(pcm, number * FRAME_S, taken)


def kept(folder: Path, frames: Iterable[Frame]) -> Soundtrack:
    """A soundtrack that took frames, and was closed."""
    track = Soundtrack(folder, "one")
    for each in frames:
        track.take(each)
    track.close()
    return track


def heard(file: Path) -> np.ndarray:
    """What is in a file, as an independent reader has it: ffmpeg's decoder, at our rate."""
    if shutil.which("ffmpeg") is None:
        return soundfile.read(file, dtype="int16")[0]
    command = ["ffmpeg", "-v", "error", "-i", str(file), "-ar", str(SAMPLE_RATE), "-f", "s16le", "-"]
    return np.frombuffer(subprocess.run(command, capture_output=True, check=True).stdout, "<i2")


def test_all_of_it_is_kept(tmp_path: Path) -> None:
    """Ten seconds come back whole and alike, in an eighth of the room; nothing went wrong."""
    frames = [frame(number) for number in range(1, 313)]
    track = kept(tmp_path, frames)
    came = np.frombuffer(b"".join(each.pcm for each in frames), "<i2")
    back = heard(tmp_path / track.place)

    assert track.place == "sound/one/soundtrack-1.ogg"
    assert len(back) == pytest.approx(len(came), abs=2)
    assert np.corrcoef(came[: len(back)], back[: len(came)])[0, 1] > 0.99
    assert (tmp_path / track.place).stat().st_size < came.nbytes / 8
    assert list(track.news()) == []


def test_a_session_that_goes_on_gets_another_file(tmp_path: Path) -> None:
    """What was recorded before is never written over."""
    before = kept(tmp_path, [frame(1)]).place
    held = (tmp_path / before).read_bytes()

    assert kept(tmp_path, [frame(1)]).place == "sound/one/soundtrack-2.ogg"
    assert (tmp_path / before).read_bytes() == held


def test_it_begins_where_the_session_does(tmp_path: Path) -> None:
    """Sound that came before the session began is not in the file."""
    track = Soundtrack(tmp_path, "one")
    for number in range(101, 132):
        track.take(frame(number))
    track.close()

    assert track.written_s == pytest.approx(31 * FRAME_S)


def test_what_is_lost_stands_as_silence(tmp_path: Path) -> None:
    """Sound that the device lost, and sound that found no room on its way, keep their time; both are told."""
    whole = [frame(number, LOST if 32 <= number < 63 else WHOLE) for number in range(1, 157)]
    track = kept(tmp_path, [each for number, each in enumerate(whole, 1) if not 94 <= number < 110])
    level = np.abs(heard(tmp_path / track.place).astype(float))

    assert list(track.news()) == [
        Silence(pytest.approx(31 * FRAME_S), pytest.approx(31 * FRAME_S), LostBy.DEVICE),
        Silence(pytest.approx(93 * FRAME_S), pytest.approx(16 * FRAME_S), LostBy.STORE),
    ]
    assert len(level) == pytest.approx(156 * FRAME_SAMPLES, abs=2)
    for from_s, to_s, silent in [(0.1, 0.9, False), (1.1, 1.9, True), (2.1, 2.9, False), (3.1, 3.4, True)]:
        piece = level[round(from_s * SAMPLE_RATE) : round(to_s * SAMPLE_RATE)]
        assert (piece.mean() < 100) == silent


def take_on(folder: Path, told: Connection) -> None:
    """Take frame after frame, telling of each when it was handed to the file, until killed."""
    track = Soundtrack(folder, "one")
    number = 0
    while True:
        number += 1
        track.take(frame(number))
        while track.written_s < number * FRAME_S - FRAME_S / 2:
            os.sched_yield()
        told.send(number)


def killed_after(folder: Path, frames: int) -> float:
    """Let a process write so many frames at least; returns how many seconds of sound it had written."""
    spawn = multiprocessing.get_context("forkserver")
    spawn.set_forkserver_preload(["handsfree.keep.soundtrack", "soundfile"])
    ours, theirs = spawn.Pipe(duplex=False)
    process = spawn.Process(target=take_on, args=(folder, theirs))
    process.start()
    theirs.close()
    last = 0
    while last < frames:
        last = ours.recv()
    process.kill()
    process.join()
    try:
        while True:
            last = ours.recv()
    except EOFError:
        ours.close()
        return last * FRAME_S


def test_a_kill_costs_no_more_than_two_seconds(tmp_path: Path) -> None:
    """After kills at random moments the file is played by two decoders, to two seconds before the kill."""
    moments = random.Random(7)
    for number in range(1, KILLS + 1):
        written_s = killed_after(tmp_path, moments.randint(70, 300))
        file = tmp_path / f"sound/one/soundtrack-{number}.ogg"

        for samples in (heard(file), soundfile.read(file)[0]):
            assert written_s - 2.0 <= len(samples) / SAMPLE_RATE <= written_s + FRAME_S


def test_a_full_disk_ends_the_file_and_not_the_session(tmp_path: Path) -> None:
    """It is told once; frames go on being taken; what was written before can be heard."""
    with small(tmp_path / "full", "64k"):
        track = kept(tmp_path / "full", (frame(number) for number in range(1, 1500)))

        assert [str(told.trouble) for told in track.news()] == ["Trouble.UNWRITTEN"]
        assert len(heard(tmp_path / "full" / track.place)) / SAMPLE_RATE > 5


def test_a_folder_that_is_none_is_refused_at_the_start(tmp_path: Path) -> None:
    """Where no sound can be kept, the session learns it before it begins."""
    (tmp_path / "sound").write_text("in the way")

    with pytest.raises(StoreFailed, match="can't be kept"):
        Soundtrack(tmp_path, "one")


def test_a_recording_waits_for_the_disk(tmp_path: Path) -> None:
    """Sound that comes faster than it can be written, more than finds room, is written whole."""
    track = Soundtrack(tmp_path, "one", waits=True)
    silent = bytes(2 * FRAME_SAMPLES)
    count = 2 * round(WAITING_S / FRAME_S)
    for number in range(1, count + 1):
        track.take(Frame(silent, number * FRAME_S))
    track.close()

    assert list(track.news()) == []
    assert soundfile.info(tmp_path / track.place).frames == pytest.approx(count * FRAME_SAMPLES, abs=2)
