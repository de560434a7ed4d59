"""A voice aloud: synthesised sentences into an output."""

from __future__ import annotations

from fractions import Fraction

from handsfree.say.voices.chimes import sounded
from handsfree.say.voices.pcm import Output
from handsfree.say.voices.synthesis import synthesise
from handsfree.signals import Chime

DEFAULT_VOICE = "en-us+m3"
DEFAULT_RATE_WPM = 150
"""Of seven voices at three rates, Vosk hears this best at 5 dB: 21 % of words wrong, others 21 to 36 %."""


class SpokenVoice:
    """Voice that synthesises each sentence and plays it through `output`.

    voice: an espeak voice, with a variant after the plus sign. rate_wpm: words a minute.
    """

    def __init__(self, output: Output, voice: str = DEFAULT_VOICE, rate_wpm: int = DEFAULT_RATE_WPM) -> None:
        self._output, self._voice, self._rate_wpm = output, voice, rate_wpm

    def say(self, text: str) -> float:
        """Start to say one sentence; returns at once with its length in seconds. Raises PlaybackFailed."""
        pcm = synthesise(text, self._voice, self._rate_wpm)
        self._output.play(pcm)
        return pcm.length_s

    def chime(self, chime: Chime) -> float:
        """Start one short sound; returns its length in seconds. Raises PlaybackFailed."""
        pcm = sounded(chime)
        self._output.play(pcm)
        return pcm.length_s

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick once a drop, or no more. Raises PlaybackFailed."""
        self._output.beat(drops_per_min)

    def hush(self) -> None:
        """Fall silent at once."""
        self._output.hush()
