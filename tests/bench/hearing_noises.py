"""Noise, and speech mixed with it so that both have the loudness that the report names."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from random import Random

import numpy as np
import soundfile

from handsfree.signals import SAMPLE_RATE
from tests.voice.noises import engine, white, wind
from tests.voice.synthesisers import Sound

QUIET = "quiet"

LEVELS = (QUIET, "24", "15", "6")
"""No noise, or dB by which the loudest frame of speech stands over the loudest frame of the noise."""

FRAME, _HOP = 2048, 512
"""Samples of a frame whose root mean square is compared, and samples from one frame to the next."""

BEFORE_S, AFTER_S = 0.6, 2.5
"""Seconds of noise alone around a sentence."""

_TRACK_S = 60.0


def stream(speech: Sound) -> Sound:
    """A sentence with silence around it."""
    return np.pad(speech, (round(BEFORE_S * SAMPLE_RATE), round(AFTER_S * SAMPLE_RATE)))


def mixed(speech: Sound, noise: Sound, louder_db: float) -> Sound:
    """Speech over noise of the same length; the whole made quieter where it would clip."""
    factor = loudest(speech) / loudest(noise) * 10 ** (-louder_db / 20)
    whole = speech + noise * factor
    return np.asarray(whole / max(1.0, float(np.abs(whole).max())), np.float32)


def loudest(sound: Sound) -> float:
    """Root mean square of the loudest frame."""
    padded = np.pad(sound, (0, max(0, FRAME - len(sound)))).astype(np.float64)
    frames = np.lib.stride_tricks.sliding_window_view(padded, FRAME)[::_HOP]
    return float(np.sqrt(np.max(np.mean(frames * frames, axis=1))))


def piece(track: Sound, samples: int, seed: str) -> Sound:
    """A piece of a track from a place that follows from the seed."""
    return np.take(track, np.arange(samples) + Random(seed).randrange(len(track)), mode="wrap")


def hiss(corpus: Path, split: str) -> Sound:
    """White noise, other for each split."""
    del corpus
    return white(_TRACK_S, seed=11 if split == "tune" else 12)


def babble(corpus: Path, split: str) -> Sound:
    """Several people at once, in voices that speak nowhere else."""
    return np.asarray(soundfile.read(babble_file(corpus, split), dtype="float32")[0], np.float32)


def babble_file(corpus: Path, split: str) -> Path:
    """Where a corpus keeps its babble."""
    return corpus / f"babble-{split}.wav"


def _always(make: Callable[[float], Sound]) -> Callable[[Path, str], Sound]:
    def track(corpus: Path, split: str) -> Sound:
        del corpus, split
        return make(_TRACK_S)

    return cache(track)


NOISES: dict[str, Callable[[Path, str], Sound]] = {
    "hiss": cache(hiss),
    "babble": cache(babble),
    "engine": _always(engine),
    "wind": _always(wind),
}
"""A minute or so of each kind, for a corpus and a split."""


def noise_of(seed: str, kinds: tuple[str, ...]) -> str:
    """The kind of noise for one sentence: every kind as often as every other."""
    return Random(f"noise {seed}").choice(kinds)


def talkers(parts: Iterator[Sound], number: int) -> Sound:
    """So many talkers at once, equally loud, from one stream of sentences."""
    lines: list[list[Sound]] = [[] for _ in range(number)]
    while min(sum(map(len, line)) for line in lines) < 40 * SAMPLE_RATE:
        shortest = min(lines, key=lambda line: sum(map(len, line)))
        said = next(parts)
        shortest.append(said / max(loudest(said), 1e-6))
    together = [np.concatenate(line)[: 40 * SAMPLE_RATE] for line in lines]
    whole = np.sum(together, axis=0)
    return np.asarray(whole / np.abs(whole).max() * 0.9, np.float32)
