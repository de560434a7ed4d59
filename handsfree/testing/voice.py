"""A voice that only remembers, a loudspeaker without a wire, and what every voice keeps to."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from handsfree.errors import PlaybackFailed
from handsfree.ports import Voice
from handsfree.say.length import spoken_length_s
from handsfree.signals import Chime, Manner


class FakeVoice:
    """Voice that keeps what it was told.

    said: the sentences in order. beats: the rates at which it was to tick. hushes: how often it had to fall
    silent. manner: how it sounds. broken: set it, and everything fails.
    """

    def __init__(self) -> None:
        self.said: list[str] = []
        self.chimes: list[Chime] = []
        self.beats: list[Fraction | None] = []
        self.hushes = 0
        self.manner = Manner()
        self.broken = False

    def say(self, text: str) -> float:
        """Keep one sentence; returns its length by the fixed formula. Raises PlaybackFailed where broken."""
        if self.broken:
            raise PlaybackFailed("The fake voice is broken.", "Mend it.")
        self.said.append(text)
        return spoken_length_s(text)

    def chime(self, chime: Chime) -> float:
        """Keep it; it takes no time. Raises PlaybackFailed where broken."""
        if self.broken:
            raise PlaybackFailed("The fake voice is broken.", "Mend it.")
        self.chimes.append(chime)
        return 0.0

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Keep the rate. Raises PlaybackFailed where broken."""
        if self.broken:
            raise PlaybackFailed("The fake voice is broken.", "Mend it.")
        self.beats.append(drops_per_min)

    def speak_as(self, manner: Manner) -> None:
        """Keep it."""
        self.manner = manner

    def hush(self) -> None:
        """Count it."""
        self.hushes += 1


class FakeOutput:
    """Stands in for the module `sounddevice`, as far as a loudspeaker uses it.

    Nothing sounds until `pull`. rate: samples a second, of the device's own choice. there: whether a device
    is plugged in; may be set at any time.
    """

    class PortAudioError(Exception):
        """What the module raises where a device fails."""

    def __init__(self, rate: float = 22_050.0, *, there: bool = True) -> None:
        self._rate, self.there = rate, there
        self._stream: FakeOutputStream | None = None

    def query_devices(self, _device: int | str | None = None, kind: str = "output") -> dict[str, Any]:
        """Describe the one device. Raises PortAudioError where none is there."""
        if not self.there:
            raise self.PortAudioError(f"Error querying {kind} device -1")
        return {"name": "fake", "default_samplerate": self._rate, "max_output_channels": 2}

    def RawOutputStream(self, **settings: Any) -> FakeOutputStream:
        """Open the device."""
        self._stream = FakeOutputStream(self, settings["callback"])
        return self._stream

    def pull(self, seconds: float) -> bytes:
        """Let time pass at the device: what sounded in it, 16-bit; nothing where no stream plays."""
        if self._stream is None or not self._stream.active:
            return b""
        return self._stream.pull(round(seconds * self._rate))


class FakeOutputStream:
    """One use of the device."""

    def __init__(self, device: FakeOutput, callback: Callable[..., None]) -> None:
        self._device, self._callback = device, callback
        self._started = False

    @property
    def active(self) -> bool:
        """Whether it plays."""
        return self._started and self._device.there

    def start(self) -> None:
        """Begin to play."""
        self._started = True

    def close(self, ignore_errors: bool = True) -> None:
        """Stop."""
        del ignore_errors
        self._started = False

    def pull(self, samples: int) -> bytes:
        """Ask the program for sound, as a device does."""
        out = bytearray(b"\x55" * (2 * samples))
        self._callback(memoryview(out), samples, None, None)
        return bytes(out)


def says_at_once(voice: Voice) -> None:
    """A sentence has a length in seconds, the same each time it is said."""
    length_s = voice.say("Set forty two drops a minute, four two.")
    assert math.isfinite(length_s)
    assert length_s >= 0
    assert length_s == voice.say("Set forty two drops a minute, four two.")


def longer_takes_longer(voice: Voice) -> None:
    """A long sentence does not take less time than its beginning."""
    assert voice.say("Correct?") <= voice.say("Correct, or say the number of drops again?")


def hushes_any_time(voice: Voice) -> None:
    """To fall silent is never wrong: before the first word, amid, twice over; it can speak again after."""
    voice.hush()
    voice.say("Close the clamp.")
    voice.hush()
    voice.hush()
    voice.say("Spike the bag.")


def chimes_any_time(voice: Voice) -> None:
    """Every short sound can be made, between sentences and twice in a row."""
    voice.say("Close the clamp.")
    for chime in Chime:
        assert voice.chime(chime) == voice.chime(chime) >= 0
    voice.hush()


def takes_any_text(voice: Voice) -> None:
    """Nothing, blanks, several lines and letters of any script are no failure."""
    for text in ("", " ", "One.\nTwo.", "37 °C, 5 µg; 液", "\N{DROPLET}"):
        assert voice.say(text) >= 0


def ticks_any_time(voice: Voice) -> None:
    """A beat begins, changes and ends, amid speech and without; to end it twice is never wrong."""
    voice.beat(Fraction(42))
    voice.say("Close the clamp.")
    voice.beat(Fraction(125, 4))
    voice.hush()
    voice.beat(None)
    voice.beat(None)


def speaks_any_way(voice: Voice) -> None:
    """In every manner a sentence has a length, and what is slower takes no less time."""
    lengths_s = []
    for pace in (2, 0, -2):
        voice.speak_as(Manner(loudness=pace, pace=pace, voice=2 - pace))
        voice.speak_as(Manner(pace=pace))
        lengths_s.append(voice.say("Set forty two drops a minute, four two."))
    assert lengths_s == sorted(lengths_s)
    voice.speak_as(Manner())


CHECKS: tuple[Callable[[Voice], None], ...] = (
    says_at_once,
    longer_takes_longer,
    hushes_any_time,
    chimes_any_time,
    takes_any_text,
    ticks_any_time,
    speaks_any_way,
)
"""Each takes a voice that works and raises AssertionError where it breaks the contract."""
