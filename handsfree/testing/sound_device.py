"""A sound device that plays a script into a microphone's call-back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any, assert_never

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Sound:
    """Samples from -1 to 1 at the device's rate reach the microphone, the same in each channel.

    With one column for each channel, they need not be the same.
    """

    samples: NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Overflow:
    """The machine was too slow: this much sound is lost, and the next block says so."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Unplugged:
    """The device goes away, and the stream ends."""


Step = Sound | Overflow | Unplugged


class FakeSoundDevice:
    """Stands in for the module `sounddevice`, as far as a microphone uses it.

    After the last step it stays mute, as a dead device does. rate: samples a second, of its own choice.
    channels: how many it claims to have. delay_s: how long it keeps each block back. opened: how many
    channels it was opened with, 0 before that.
    """

    class PortAudioError(Exception):
        """What the module raises where a device fails."""

    def __init__(
        self,
        *script: Step,
        rate: float = 16_000,
        channels: int = 1,
        there: bool = True,
        delay_s: float = 0.0,
    ) -> None:
        self._script, self._rate, self._channels, self._there = script, rate, channels, there
        self._delay_s = delay_s
        self.opened = 0

    def query_devices(self, _device: int | str | None, _kind: str) -> dict[str, object]:
        """Describe the one device."""
        if not self._there:
            raise self.PortAudioError("Error querying device -1")
        return {"name": "fake", "default_samplerate": self._rate, "max_input_channels": self._channels}

    def RawInputStream(self, **settings: Any) -> _FakeStream:
        """Open the device."""
        self.opened = settings["channels"]
        return _FakeStream(self._script, self._delay_s, **settings)


class _FakeStream:
    def __init__(self, script: tuple[Step, ...], delay_s: float, **settings: Any) -> None:
        self._script, self._delay_s = script, delay_s
        self._rate: float = settings["samplerate"]
        self._block: int = settings["blocksize"]
        self._channels: int = settings["channels"]
        self._callback: Callable[..., None] = settings["callback"]
        self._finished: Callable[[], None] = settings["finished_callback"]
        self._now_s, self._overflow = 100.0, False

    def start(self) -> None:
        for step in self._script:
            match step:
                case Sound(samples):
                    self._play(samples)
                case Overflow(seconds):
                    self._now_s += seconds
                    self._overflow = True
                case Unplugged():
                    self._finished()
                case _:
                    assert_never(step)

    def close(self) -> None:
        pass

    def _play(self, samples: NDArray[np.float64]) -> None:
        columns = samples.reshape(len(samples), -1).astype(np.float32)
        whole = np.broadcast_to(columns, (len(samples), self._channels))
        for start in range(0, len(whole), self._block):
            block = np.ascontiguousarray(whole[start : start + self._block])
            status = SimpleNamespace(input_overflow=self._overflow)
            brought_s = self._now_s + len(block) / self._rate + self._delay_s
            time = SimpleNamespace(inputBufferAdcTime=self._now_s, currentTime=brought_s)
            self._callback(memoryview(block.tobytes()), len(block), time, status)
            self._now_s += len(block) / self._rate
            self._overflow = False
