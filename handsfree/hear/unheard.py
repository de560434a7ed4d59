"""Sound as loud as the words of a reading, where it has none: then more was said than was understood.

A recogniser that knows few sentences lays the likeliest over whatever it hears, and calls the rest silence.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from handsfree.hear.edges import STEP_S, Levels, smoothed
from handsfree.signals import Alternative

BELOW_DB = 6.0
"""Sound that is quieter than the words' loud moments by more may be the room, or others in it."""

LOUD_SHARE = 0.9
"""Of the moments of the words so many are quieter than a loud one."""

AROUND_S = 0.03
"""Where a word begins or ends, it may sound so much earlier or later."""


def measured(
    alternatives: tuple[Alternative, ...], levels_db: Levels, first_s: float, last_s: float
) -> tuple[Alternative, ...]:
    """Each reading with its `unheard_s`, from the first to the last sound of speech, where it tells the times
    of its words. All times are from where the levels start."""
    levels, speech = smoothed(levels_db), _within(levels_db, first_s, last_s)
    return tuple(
        replace(one, unheard_s=_unheard_s(one, levels, speech)) if one.begins_s else one
        for one in alternatives
    )


def _unheard_s(one: Alternative, levels: Levels, speech: slice) -> float:
    covered = np.zeros(len(levels), np.bool_)
    for begin_s, end_s in zip(one.begins_s, one.ends_s, strict=True):
        covered[_within(levels, begin_s - AROUND_S, end_s + AROUND_S)] = True
    loud_db = np.quantile(levels[covered], LOUD_SHARE) - BELOW_DB
    return STEP_S * int(np.count_nonzero((levels > loud_db)[speech] & ~covered[speech]))


def _within(levels: Levels, first_s: float, last_s: float) -> slice:
    first, last = (min(max(0, round(at_s / STEP_S)), len(levels) - 1) for at_s in (first_s, last_s))
    return slice(first, last + 1)
