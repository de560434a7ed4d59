"""Hours of recording, in accelerated and in real time.

    python -m tests.bench.soundtrack --hours 2 [--ppm 100]
    python -m tests.bench.soundtrack --minutes 10 [--ppm 100] [--busy 2]

The first goes as fast as the encoder: a simulated card, frames that come as on a busy machine, and a beep
each minute, which is looked for in the file. The second runs the microphone, the tape, the door and an ear in
real time, while other processes keep the processors busy. Both print how far a beep is from where the journal
says, memory, and the size of the file.
"""

from __future__ import annotations

import argparse
import multiprocessing
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from types import SimpleNamespace
from typing import Any

import numpy as np

from handsfree.care import events as e
from handsfree.care.sound_time import tracks
from handsfree.clock import SteadyClock
from handsfree.hear.microphone import Microphone
from handsfree.hear.sound_door import LiveDoor
from handsfree.signals import FRAME_S, Closed, Gate
from handsfree.tape import Tape
from handsfree.testing.sentences import ListedSentences
from handsfree.wiring import make_ear
from tests.sound_card import Card, busy, drifting
from tests.sound_trial import Beeps, onsets_s, resident_kb, trial

TURN_S = 10.0
"""So often the news are asked for, as the corridor does."""


class PacedDevice:
    """A sound device in real time: a thread calls back for each block, at its own pace."""

    class PortAudioError(Exception):
        """What sounddevice raises."""

    def __init__(self, beeps: Beeps, seconds: float, ppm: float) -> None:
        self._beeps, self._blocks, self._pace = beeps, round(seconds / FRAME_S), 1 + ppm * 1e-6
        self.began_s = 0.0
        self.late_s: list[float] = []

    def query_devices(self, _device: object, _kind: str) -> dict[str, object]:
        return {"name": "paced", "default_samplerate": 16_000.0, "max_input_channels": 1}

    def RawInputStream(self, **settings: Any) -> SimpleNamespace:
        play = Thread(
            target=self._play, args=(settings["callback"], settings["finished_callback"]), daemon=True
        )
        return SimpleNamespace(start=play.start, close=lambda: None)

    def _play(self, callback: Callable[..., None], finished: Callable[[], None]) -> None:
        self.began_s = time.clock_gettime(time.CLOCK_BOOTTIME)
        for number in range(1, self._blocks + 1):
            due_s = self.began_s + number * FRAME_S * self._pace
            now_s = time.clock_gettime(time.CLOCK_BOOTTIME)
            if now_s < due_s:
                time.sleep(due_s - now_s)
            brought_s = time.clock_gettime(time.CLOCK_BOOTTIME)
            self.late_s.append(brought_s - due_s)
            pcm = np.frombuffer(self._beeps.pcm(number * FRAME_S), "<i2").astype(np.float32) / 32768
            times = SimpleNamespace(inputBufferAdcTime=due_s - FRAME_S, currentTime=brought_s)
            callback(pcm.tobytes(), len(pcm), times, SimpleNamespace(input_overflow=False))
        finished()


def accelerated(hours: float, ppm: float, every_s: float = 60.0) -> None:
    """A simulated card."""
    began_s = time.monotonic()
    with TemporaryDirectory() as folder:
        found = trial(Path(folder), Card(drifting(ppm), busy), hours * 3600, every_s)
    print(f"{hours:g} h of sound in {time.monotonic() - began_s:.0f} s; {found.beeps} beeps found")
    print(f"worst {1000 * found.worst_s:.2f} ms; {len(found.track.anchors)} anchors, ", end="")
    print(f"last {found.track.anchors[-1].drift_ppm:.2f} ppm; lost: {found.late or 'nothing'}")
    length_s = found.track.length_s or 0.0
    print(f"{found.size} bytes, {8 * found.size / length_s / 1000:.1f} kbit/s, {length_s:.3f} s")
    quarters = [found.memory_kb[len(found.memory_kb) * part // 4] for part in range(4)]
    print(f"memory kB: {quarters} at each quarter, {found.memory_kb[-1]} at the end")


def real_time(minutes: float, ppm: float, burners: int) -> None:
    """The rooms of a session, beside processes that do nothing but work."""
    others = [multiprocessing.Process(target=_burn, daemon=True) for _ in range(burners)]
    for each in others:
        each.start()
    with TemporaryDirectory() as folder:
        _record(Path(folder), minutes * 60, ppm)
    for each in others:
        each.kill()


def _record(folder: Path, seconds: float, ppm: float) -> None:
    beeps, tape, clock = Beeps(drifting(ppm), 5.0, seconds), Tape(), SteadyClock()
    device = PacedDevice(beeps, seconds, ppm)
    offset = clock.now() - timedelta(seconds=time.clock_gettime(time.CLOCK_BOOTTIME))
    microphone = Microphone(sounddevice=device)
    tape.begin(folder, "one", clock)
    door = LiveDoor(tape.tap(microphone), make_ear("sphinx"), clock)
    door.open(ListedSentences("next", "go back"), Gate.OPEN, "")
    events, ended, turns = list[e.Event](), False, 0
    file = folder / "sound" / "one" / "soundtrack-1.ogg"
    while not ended:
        try:
            ended = isinstance(door.next(clock.now() + timedelta(seconds=TURN_S)), Closed)
        except Exception as gone:
            print(gone)
            ended = True
        events += tape.news()
        turns += 1
        print(f"{clock.now():%H:%M:%S} {resident_kb()} kB, file {file.stat().st_size} bytes", flush=True)
    events += tape.end()
    (track,) = tracks(e.Recorded(clock.now(), event) for event in events)
    heard = onsets_s(file)
    moments = [offset + timedelta(seconds=device.began_s + one) for one in beeps.moments_s]
    off_ms = [1000 * (at_s - track.sound_s(at)) for at_s, at in zip(heard, moments, strict=False)]
    lost = [one for one in events if isinstance(one, e.SoundMissed | e.SoundTroubled)]
    print(f"{len(heard)} of {len(moments)} beeps; off by {min(off_ms):.2f} to {max(off_ms):.2f} ms")
    print(f"lost: {lost or 'nothing'}")
    print(f"call-backs late by up to {1000 * max(device.late_s):.0f} ms; overflows {microphone.gaps}")
    print(f"{len(track.anchors)} anchors, last {track.anchors[-1].drift_ppm:.2f} ppm; {track.length_s} s")


def _burn() -> None:
    while True:
        pass


def main() -> None:
    """Run one of both."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--hours", type=float)
    options.add_argument("--minutes", type=float)
    options.add_argument("--ppm", type=float, default=100.0)
    options.add_argument("--busy", type=int, default=0)
    chosen = options.parse_args()
    if chosen.hours:
        accelerated(chosen.hours, chosen.ppm)
    if chosen.minutes:
        real_time(chosen.minutes, chosen.ppm, chosen.busy)


if __name__ == "__main__":
    main()
