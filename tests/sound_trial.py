"""A trial of the tape: beeps at known moments go through a sound card, and are looked for in the file."""

from __future__ import annotations

import os
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile

from handsfree.care import events as e
from handsfree.care.sound_time import Track, tracks
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE, Frame
from handsfree.tape import Tape
from tests.sound_card import START, Card, ToldClock, TrueTime

BEEP_S = 0.1
_LEVEL, _HEARD = 16_000, 5_000
"""Of a beep, and from where on it counts as begun; room tone stays far below."""


@dataclass(frozen=True)
class Found:
    """What a trial found. worst_s: how far a beep was from where the journal says, at the worst.

    beeps: how many were found. late: news beside anchors and the beginning, of which there should be none.
    memory_kb: of the process, at every beep.
    """

    track: Track
    worst_s: float
    beeps: int
    size: int
    late: tuple[e.Event, ...]
    memory_kb: tuple[int, ...]


class Beeps:
    """The sound of a card in a room where something beeps at known moments."""

    def __init__(self, true_s: TrueTime, every_s: float, sound_s: float) -> None:
        count = int(true_s(sound_s - 1) / every_s)
        self.moments_s = [every_s * number for number in range(1, count + 1)]
        self.starts = [round(_sound_s(true_s, moment) * SAMPLE_RATE) for moment in self.moments_s]
        noise = np.random.default_rng(7).normal(0, 100, (199, FRAME_SAMPLES))
        self._room = [one.astype("<i2") for one in noise]
        self._tone = _LEVEL * np.sin(np.arange(round(BEEP_S * SAMPLE_RATE)) * 2 * np.pi * 1000 / SAMPLE_RATE)

    def pcm(self, end_s: float) -> bytes:
        """The sound of the frame that ends there."""
        first = round(end_s * SAMPLE_RATE) - FRAME_SAMPLES
        sound = self._room[first // FRAME_SAMPLES % len(self._room)]
        nearest = (
            self.starts[max(0, bisect_right(self.starts, first + FRAME_SAMPLES) - 1)] if self.starts else 0
        )
        from_, to = max(first, nearest), min(first + FRAME_SAMPLES, nearest + len(self._tone))
        if from_ < to:
            sound = sound.copy()
            sound[from_ - first : to - first] = self._tone[from_ - nearest : to - nearest].astype("<i2")
        return sound.tobytes()


def trial(folder: Path, card: Card, sound_s: float, every_s: float) -> Found:
    """Record so much sound in accelerated time, and look for its beeps."""
    tape, clock, beeps = Tape(waits=True), ToldClock(), Beeps(card.true_s, every_s, sound_s)
    tape.begin(folder, "one", clock)
    events: list[e.Event] = []
    memory_kb: list[int] = []

    class Arriving:
        def frames(self) -> Iterator[Frame]:
            for frame, clock.at in card.arrivals(sound_s, beeps.pcm):
                yield frame

    for frame in tape.tap(Arriving()).frames():
        if frame.end_s % every_s < FRAME_S:
            events += tape.news()
            memory_kb.append(resident_kb())
    events += tape.end()
    (track,) = tracks(e.Recorded(START, event) for event in events)
    heard = onsets_s(folder / track.file)
    late = [
        one for one in events if not isinstance(one, e.SoundStarted | e.SoundSynchronised | e.SoundStopped)
    ]
    off = [
        abs(at_s - track.sound_s(card.moment(moment)))
        for at_s, moment in zip(heard, beeps.moments_s, strict=True)
    ]
    return Found(
        track, max(off), len(heard), (folder / track.file).stat().st_size, tuple(late), tuple(memory_kb)
    )


def onsets_s(file: Path) -> list[float]:
    """Where beeps begin in a file, in seconds of its sound."""
    found: list[float] = []
    with soundfile.SoundFile(file) as sound:
        for number, block in enumerate(sound.blocks(60 * SAMPLE_RATE, dtype="int16")):
            for sample in np.flatnonzero(np.abs(block.astype(int)) > _HEARD):
                at_s = number * 60 + sample / SAMPLE_RATE
                if not found or at_s > found[-1] + 2 * BEEP_S:
                    found.append(at_s)
    return found


def resident_kb() -> int:
    """Memory of this process that is in use."""
    fields = Path("/proc/self/statm").read_text("ascii").split()
    return int(fields[1]) * os.sysconf("SC_PAGESIZE") // 1024


def _sound_s(true_s: TrueTime, moment_s: float) -> float:
    """How much sound had been heard at a moment: the other way round, by halving."""
    low, high = 0.0, 2 * moment_s + 1
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if true_s(middle) < moment_s else (low, middle)
    return low
