"""Synthesis: one sentence in, its sound out."""

from __future__ import annotations

import wave
from functools import lru_cache
from io import BytesIO
from threading import Timer

from handsfree.errors import PlaybackFailed
from handsfree.say.voices.espeak import NEXT_STEP, Espeak, espeak
from handsfree.say.voices.pcm import Pcm
from handsfree.words import worded

_KEPT_SENTENCES = 64
_TRIES = 3
_STUCK_S = 2.0
"""Ten words take 0.03 s. Now and then pyttsx3 misses that espeak has finished, and would wait for ever."""

_RATE = 1
"""espeakRATE, in espeak's speak_lib.h."""


@lru_cache(maxsize=_KEPT_SENTENCES)
def synthesise(text: str, voice: str, rate_wpm: int) -> Pcm:
    """Make the sound of one sentence. voice: an espeak voice, such as "en-us". Raises PlaybackFailed."""
    if not text.strip():
        return Pcm(b"")
    parts = espeak()
    faults: list[Exception] = []
    # pyttsx3 tells faults of its queue to listeners only.
    listener = parts.engine.connect("error", lambda **fault: faults.append(fault["exception"]))
    try:
        wav = _whole(parts, text, voice, rate_wpm)
    finally:
        parts.engine.disconnect(listener)
    if faults:
        raise PlaybackFailed(worded("The synthesiser failed ({fault}).", fault=faults[0]), NEXT_STEP)
    pcm = _pcm(wav)
    # A synthesiser that is cut off gives silence and no fault: said is not heard.
    if not any(pcm.samples) and any(character.isalnum() for character in text):
        raise PlaybackFailed(worded("The synthesiser made no sound."), NEXT_STEP)
    return pcm


def _whole(parts: Espeak, text: str, voice: str, rate_wpm: int) -> BytesIO:
    """The sound file of a sentence; tried again where the synthesiser was stuck."""
    tries = (_wav(parts, text, voice, rate_wpm) for _ in range(_TRIES))
    return next((wav for wav in tries if wav.getbuffer().nbytes), BytesIO())


def _wav(parts: Espeak, text: str, voice: str, rate_wpm: int) -> BytesIO:
    wav = BytesIO()
    parts.engine.setProperty("voice", voice)
    # Set through pyttsx3, the rate would wait in espeak's queue, which pyttsx3 empties before it speaks.
    parts.library.espeak_SetParameter(_RATE, rate_wpm, 0)
    parts.library.espeak_Synchronize()
    # A file in memory: on a full disk pyttsx3 would lose the sound without a word.
    parts.engine.save_to_file(text, wav)
    watchdog = Timer(_STUCK_S, parts.engine.proxy.endLoop, (True,))
    watchdog.start()
    parts.engine.runAndWait()
    watchdog.cancel()
    # runAndWait comes back while espeak's own thread still works.
    parts.library.espeak_Synchronize()
    return wav


def _pcm(wav: BytesIO) -> Pcm:
    wav.seek(0)
    try:
        with wave.open(wav) as sound:
            return Pcm(sound.readframes(sound.getnframes()))
    except (wave.Error, EOFError) as broken:
        raise PlaybackFailed(worded("The synthesiser made no sound."), NEXT_STEP) from broken
