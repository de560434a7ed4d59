"""Where speech begins and ends, closer than a frame, and how far it stands over the room.

The detector's own memory makes it let go 60 ms late.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from handsfree.signals import SAMPLE_RATE

STEP_S = 0.01
"""Level is looked at in pieces of this length."""

BELOW_PEAK_DB = 35.0
"""Anything quieter than the loudest piece by more is not speech: soft consonants lie 30 dB below loud
vowels."""

ABOVE_ROOM_DB = 6.0
"""Speech is louder by this than the quietest tenth of the pieces."""

SMOOTHED_S = 0.06
"""A click is not as loud as a word that long."""

EARLY_S, LATE_S = 0.06, 0.12
"""Most by which the detector is believed to be early and late."""


Levels = NDArray[np.float64]
"""In dB, one for each STEP_S of a sound."""


def levels_of(pcm: bytes) -> Levels:
    """Level of each piece of STEP_S."""
    step = round(STEP_S * SAMPLE_RATE)
    samples = np.frombuffer(pcm, "<i2").astype(np.float64)
    pieces = samples[: len(samples) // step * step].reshape(-1, step)
    return np.asarray(10 * np.log10(np.mean(pieces * pieces, axis=1) + 1e-1), np.float64)


def smoothed(levels_db: Levels) -> Levels:
    """Loudness over SMOOTHED_S, at each piece."""
    over = np.ones(round(SMOOTHED_S / STEP_S))
    return np.asarray(
        10 * np.log10(np.convolve(10 ** (levels_db / 10), over / over.size, "same")), np.float64
    )


def speech_edges(levels_db: Levels, first_s: float, last_s: float) -> tuple[float, float]:
    """First and last sound of speech, near what the detector said; all in seconds from the start."""
    loud_s = _loud_s(levels_db)
    begins = loud_s[(loud_s >= first_s - EARLY_S) & (loud_s <= first_s + LATE_S)]
    ends = loud_s[(loud_s >= last_s - LATE_S) & (loud_s <= last_s + EARLY_S)]
    first_s = float(begins[0]) if begins.size else first_s
    return first_s, max(first_s, float(ends[-1]) + STEP_S if ends.size else last_s)


def over_room_db(levels_db: Levels) -> float:
    """By how much the loud moments of an utterance, with the moment before it, stand over the quiet ones.

    Some 70 dB in a recording made in silence; 20 in a generator's noise, 10 where one hardly understands.
    """
    quiet_db, loud_db = np.quantile(levels_db, (0.10, 0.95)) if levels_db.size else (0.0, 0.0)
    return float(loud_db - quiet_db)


def _loud_s(levels_db: Levels) -> NDArray[np.float64]:
    """Beginnings of the pieces that may be speech."""
    room_db = float(np.quantile(levels_db, 0.1)) + ABOVE_ROOM_DB
    loud = np.flatnonzero(levels_db > max(room_db, float(levels_db.max()) - BELOW_PEAK_DB))
    return loud.astype(np.float64) * STEP_S
