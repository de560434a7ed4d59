"""The loudspeaker: one output stream that stays open; plays what waits, else the beat, else silence."""

from __future__ import annotations

from fractions import Fraction
from threading import Event, Lock
from typing import Any

from handsfree.errors import PlaybackFailed
from handsfree.say.voices.pcm import SAMPLE_BYTES, SPEECH_RATE, Pcm, amplified
from handsfree.say.voices.ticker import Ticker
from handsfree.words import worded

_LATENCY_S = 0.1
"""How much sound the device may hold: it is still heard after `hush`."""

_LONGEST_BACKLOG_S = 60
"""Nobody is told so much at once: the device takes no sound although it does not say so."""

_NEXT_STEP = worded("Plug in or switch on a loudspeaker, or use `--voice printed`.")


def default_loudspeaker() -> Loudspeaker:
    """The machine's own. Raises PlaybackFailed where PortAudio is missing."""
    try:
        import sounddevice
    except OSError as missing:
        raise PlaybackFailed(
            worded("Sound output needs the PortAudio library ({missing}).", missing=missing),
            worded("Install it (Debian: `apt install libportaudio2`), or use `--voice printed`."),
        ) from missing
    return Loudspeaker(sounddevice)


class Loudspeaker:
    """Plays through the default device; opened with the first sound, and again after it failed."""

    def __init__(self, sounddevice: Any) -> None:
        """sounddevice: the module of that name, or one that behaves like it."""
        self._sounddevice = sounddevice
        self._stream: Any = None
        self._rate = SPEECH_RATE
        self._drops_per_min: Fraction | None = None
        self._gain = 1.0
        self._ticker = Ticker(SPEECH_RATE)
        self._waiting = bytearray()
        self._lock = Lock()
        self._silent = Event()

    def play(self, pcm: Pcm) -> None:
        """Put the sound behind what waits to be played. Raises PlaybackFailed; the next call tries anew."""
        self._open()
        samples = _resampled(pcm.samples, self._rate)
        with self._lock:
            backlog_s = len(self._waiting) / SAMPLE_BYTES / self._rate
            self._waiting += samples
            self._silent.clear()
        if backlog_s > _LONGEST_BACKLOG_S:
            self._give_up(worded("The loudspeaker takes no sound."))

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick once a drop from now on, or no more; speech has the first word. Raises PlaybackFailed."""
        if drops_per_min is not None:
            self._open()
        with self._lock:
            self._drops_per_min = drops_per_min
            self._ticker.beat(drops_per_min)

    def amplify(self, gain: float) -> None:
        """Make all that is heard from now on so many times as strong, the beat too."""
        self._gain = gain

    def hush(self) -> None:
        """Drop what was not played yet."""
        with self._lock:
            self._waiting.clear()
            self._silent.set()

    def finish(self) -> None:
        """Wait until all was played, or the device has had the time for it; then let go of it."""
        with self._lock:
            left_s = len(self._waiting) / SAMPLE_BYTES / self._rate
        if left_s and self._silent.wait(left_s + 1):
            self._silent.clear()
            self._silent.wait(2 * _LATENCY_S)
        self.close()

    def close(self) -> None:
        """Fall silent and let go of the device."""
        self.hush()
        stream, self._stream = self._stream, None
        if stream is not None:
            stream.close(ignore_errors=True)

    def _open(self) -> None:
        """Raises PlaybackFailed."""
        try:
            self._start()
        except (self._sounddevice.PortAudioError, OSError, ValueError) as broken:
            self._give_up(worded("The loudspeaker does not work ({why}).", why=_reason(broken)), broken)

    def _start(self) -> None:
        if self._stream is None:
            self._rate = round(self._sounddevice.query_devices(kind="output")["default_samplerate"])
            self._ticker = Ticker(self._rate)
            self._ticker.beat(self._drops_per_min)
            self._stream = self._sounddevice.RawOutputStream(
                samplerate=self._rate, channels=1, dtype="int16", latency=_LATENCY_S, callback=self._fill
            )
            self._stream.start()
        elif not self._stream.active:
            raise OSError(worded("it stopped, maybe in mid-sentence"))

    def _fill(self, out: Any, _frames: int, _time: object, _status: object) -> None:
        """Fill the device's buffer, in the device's own thread: what waits, else the beat.

        The beat goes on unheard meanwhile: it keeps its time.
        """
        wanted = len(out)
        with self._lock:
            ticks = self._ticker.render(wanted // SAMPLE_BYTES)
            piece = bytes(self._waiting[:wanted])
            del self._waiting[:wanted]
            if not self._waiting:
                self._silent.set()
        out[:] = amplified(piece + ticks[len(piece) :], self._gain)

    def _give_up(self, wrong: str, cause: Exception | None = None) -> None:
        self.close()
        raise PlaybackFailed(wrong, _NEXT_STEP) from cause


def _resampled(samples: bytes, rate: int) -> bytes:
    """Bring samples from SPEECH_RATE to the device's own rate, which every device takes."""
    if rate == SPEECH_RATE:
        return samples
    import numpy
    import soxr

    return bytes(soxr.resample(numpy.frombuffer(samples, "<i2"), SPEECH_RATE, rate).tobytes())


def _reason(broken: Exception) -> str:
    """Tell the fault in one line."""
    return " ".join(str(broken).split()).rstrip(".") or type(broken).__name__
