"""A microphone as a source of sound. The call-back copies and enqueues, nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import chain
from queue import Empty, SimpleQueue
from typing import Any

import numpy as np

from handsfree.errors import SoundError
from handsfree.hear.framing import Framer, Samples
from handsfree.signals import FRAME_S, Frame
from handsfree.words import worded

STALL_S = 2.0
"""A microphone that gives no sound for this long, twice over, is dead: even silence comes as samples.

The second wait is for a program that was busy itself: while PocketSphinx decodes, no other thread of it runs,
and what came is taken late (2.0 s seen on a busy machine). A first sound took 2.5 s there.
"""

LONGEST_GAP_S = 10.0
"""Of lost sound, no more is made up as silence: beyond, a device's own time is not to be believed."""

MOST_CHANNELS, FEW_CHANNELS = 8, 2
"""A device that claims more than the first is software, which makes up as many as it is asked for: it is
asked for the second."""

LATEST_S = 1.0
"""A device that claims to bring sound later than this does not know."""

_PLUG_IN = worded("Plug one in and run handsfree check, or use the keyboard: --ear typed.")


@dataclass(frozen=True, slots=True)
class _Block:
    """What one call-back brought.

    pcm: 32-bit floats, the channels of one moment side by side. at_s: when the first was taken, brought_s:
    when the call-back came; both by the device's own time.
    """

    pcm: bytes
    at_s: float
    brought_s: float
    overflow: bool


_Blocks = SimpleQueue[_Block | None]
"""None: the stream is over."""


class Microphone:
    """Source over a sound device.

    device: number or name, None for the system's own choice. sounddevice: the module, or one that behaves so.
    speech_db: how loud its user speaks, where that is known.
    gaps: how often the machine was too slow to take the sound; lost_s: seconds lost, kept as silence in its
    place. Raises SoundError where there is no PortAudio or no microphone.
    """

    def __init__(
        self,
        device: int | str | None = None,
        sounddevice: Any = None,
        stall_s: float = STALL_S,
        speech_db: float | None = None,
    ) -> None:
        self._sound = _sounddevice() if sounddevice is None else sounddevice
        self._speech_db = speech_db
        self._device, self._stall_s = device, stall_s
        self._rate, self._channels = self._found()
        self._next_at_s = self._given_s = 0.0
        self.gaps, self.lost_s = 0, 0.0

    def frames(self) -> Iterator[Frame]:
        """Yield frames as they are spoken, without end. Raises SoundError when the microphone fails."""
        blocks: _Blocks = SimpleQueue()
        self._given_s = 0.0
        framer = Framer(self._rate, self._channels, self._speech_db)
        stream = self._started(blocks)
        try:
            while True:
                block = self._wait(blocks)
                yield from self._cut(block, framer)
        finally:
            stream.close()

    def _found(self) -> tuple[float, int]:
        """Rate and number of channels of the device."""
        try:
            device = self._sound.query_devices(self._device, "input")
        except (self._sound.PortAudioError, ValueError) as wrong:
            raise SoundError(worded("There is no microphone."), _PLUG_IN) from wrong
        channels = int(device["max_input_channels"])
        return float(device["default_samplerate"]), channels if channels <= MOST_CHANNELS else FEW_CHANNELS

    def _started(self, blocks: _Blocks) -> Any:
        def take(pcm: Any, _count: int, time: Any, status: Any) -> None:
            overflow = bool(status.input_overflow)
            blocks.put(_Block(bytes(pcm), time.inputBufferAdcTime, time.currentTime, overflow))

        try:
            stream = self._sound.RawInputStream(
                samplerate=self._rate,
                blocksize=round(self._rate * FRAME_S),
                device=self._device,
                channels=self._channels,
                dtype="float32",
                callback=take,
                finished_callback=lambda: blocks.put(None),
            )
            stream.start()
        except (self._sound.PortAudioError, ValueError) as wrong:
            raise SoundError(worded("The microphone cannot be opened."), _PLUG_IN) from wrong
        return stream

    def _wait(self, blocks: _Blocks) -> _Block:
        for _ in range(2):
            with suppress(Empty):
                block = blocks.get(timeout=self._stall_s)
                if block is None:
                    raise SoundError(worded("The microphone is gone."), _PLUG_IN)
                return block
        raise SoundError(worded("The microphone gives no sound."), _PLUG_IN)

    def _cut(self, block: _Block, framer: Framer) -> Iterator[Frame]:
        """The frames that a block fills, each with how late it is: the framer holds sound back, too."""
        gap, sound = self._gap_before(block), self._samples(block.pcm)
        self._given_s += (len(gap) + len(sound)) / self._rate
        late_s = self._late_s(block)
        for frame in chain(framer.cut(gap, lost=True), framer.cut(sound)):
            held_s = self._given_s - frame.end_s
            yield replace(frame, taken=replace(frame.taken, late_s=late_s + held_s))

    def _gap_before(self, block: _Block) -> Samples:
        gap_s = min(max(0.0, block.at_s - self._next_at_s), LONGEST_GAP_S) if block.overflow else 0.0
        self._next_at_s = block.at_s + len(self._samples(block.pcm)) / self._rate
        if block.overflow:
            self.gaps += 1
            self.lost_s += gap_s
        return np.zeros((round(gap_s * self._rate), self._channels), np.float32)

    def _late_s(self, block: _Block) -> float:
        """How long before the call-back the last sample was taken; 0 where the device does not know."""
        late_s = block.brought_s - block.at_s - len(self._samples(block.pcm)) / self._rate
        return late_s if 0 <= late_s <= LATEST_S else 0.0

    def _samples(self, pcm: bytes) -> Samples:
        return np.frombuffer(pcm, np.float32).reshape(-1, self._channels)


def _sounddevice() -> Any:
    try:
        import sounddevice
    except OSError as wrong:
        install = worded("Install it (Debian: apt install libportaudio2).")
        raise SoundError(worded("PortAudio, the library for sound devices, is missing."), install) from wrong
    return sounddevice
