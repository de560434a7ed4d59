"""A voice aloud: synthesised sentences into an output."""

from __future__ import annotations

from fractions import Fraction

from handsfree.say.voices.chimes import sounded
from handsfree.say.voices.pcm import Output
from handsfree.say.voices.synthesis import synthesise
from handsfree.signals import Chime, Manner

DEFAULT_VOICE = "en-us+m3"
DEFAULT_RATE_WPM = 150
"""Of seven voices at three rates, Vosk hears this best at 5 dB: 21 % of words wrong, others 21 to 36 %."""

VOICES = (DEFAULT_VOICE, "en-gb-x-rp+f2", "en-us+f2")
"""Espeak voices, each with a variant after the plus sign."""

PACES_WPM = (105, 125, DEFAULT_RATE_WPM, 175, 200)
"""Words a minute, from slow to fast; it begins in the middle."""

STEP_DB = 6.0
"""Each step of loudness: twice the pressure, and clearly another loudness (common practice, no source)."""


class SpokenVoice:
    """Voice that synthesises each sentence and plays it through `output`."""

    def __init__(self, output: Output) -> None:
        self._output = output
        self.speak_as(Manner())

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

    def speak_as(self, manner: Manner) -> None:
        """Take another voice and pace for the next sentence, and another strength for all sound."""
        self._voice = VOICES[manner.voice % len(VOICES)]
        self._rate_wpm = PACES_WPM[len(PACES_WPM) // 2 + manner.pace]
        self._output.amplify(10 ** (STEP_DB * manner.loudness / 20))

    def hush(self) -> None:
        """Fall silent at once."""
        self._output.hush()
