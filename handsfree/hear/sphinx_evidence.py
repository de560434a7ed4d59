"""What speaks for the sentence that PocketSphinx found, and how sure that makes it."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass

import pocketsphinx

from handsfree.odds import Scale

LONGEST_S = 2.5
"""Seconds count up to here."""

FRAME_S = 0.01
"""Length of a frame of PocketSphinx."""

SCORE_SCALE = 1024.0
"""PocketSphinx shifts its log scores right by 10 bits to save room (`SENSCR_SHIFT` in its hmm.h)."""

SILENCE = "SIL"
"""The phone of silence. Those of breath and noise are written +SO+."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """Of one utterance.

    lead: natural log a frame by which the words explain the sound better than the phones do; seldom above 0.
    worst: the same of the word that does worst.
    beyond: share of the sounds of speech, by the phones, that come before the first word or after the last.
    seconds: how long the words are together, up to LONGEST_S.
    """

    lead: float
    worst: float
    beyond: float
    seconds: float


SCALE = Scale(12.59, Evidence(lead=1.80, worst=0.53, beyond=-12.95, seconds=-2.12))
"""Fitted with `python -m tests.bench.sphinx_scale`."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """One word or phone: its frames, and the natural log of how well it explains them."""

    name: str
    frames: range
    log: float

    @property
    def is_word(self) -> bool:
        return self.name[0] not in "<([+"

    @property
    def is_speech(self) -> bool:
        return self.is_word and self.name != SILENCE


def evidence(words: pocketsphinx.Decoder, phones: pocketsphinx.Decoder) -> Evidence | None:
    """Weigh what both made of the same sound; None where there is no sentence in it."""
    found = [stretch for stretch in _stretches(words) if stretch.is_word] if words.hyp() else []
    if not found:
        return None
    sounds = _stretches(phones)
    leads = _leads(found, sounds)
    frames = sum(len(word.frames) for word in found)
    return Evidence(
        lead=sum(leads) / frames,
        worst=min(lead / len(word.frames) for lead, word in zip(leads, found, strict=True)),
        beyond=_beyond(range(found[0].frames.start, found[-1].frames.stop), sounds),
        seconds=min(frames * FRAME_S, LONGEST_S),
    )


def _stretches(decoder: pocketsphinx.Decoder) -> list[_Stretch]:
    found = decoder.seg() or ()
    spans = ((seg, range(seg.start_frame, seg.end_frame + 1)) for seg in found)
    return [_Stretch(seg.word, span, natural_log(seg.ascore)) for seg, span in spans if span]


def _leads(words: Sequence[_Stretch], sounds: Sequence[_Stretch]) -> list[float]:
    """Natural log, for each word, by which it explains its frames better than the phones do."""
    free = {frame: sound.log / len(sound.frames) for sound in sounds for frame in sound.frames}
    return [word.log - sum(free.get(frame, 0.0) for frame in word.frames) for word in words]


def _beyond(inside: range, sounds: Sequence[_Stretch]) -> float:
    spoken = [frame for sound in sounds if sound.is_speech for frame in sound.frames]
    return sum(frame not in inside for frame in spoken) / max(1, len(spoken))


def natural_log(score: float) -> float:
    """Of a score as PocketSphinx gives it, for a word, a phone or a sentence."""
    return SCORE_SCALE * math.log(max(score, sys.float_info.min))
