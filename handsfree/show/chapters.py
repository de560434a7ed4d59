"""Moments as chapters: each lasts until the next one, so that a player leads from one to the other.

W3C, WebVTT: The Web Video Text Tracks Format, "Chapters": the text of a cue is the title of its chapter.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby, pairwise

from handsfree.webvtt import Cue

Moment = tuple[float, str]
"""Seconds from the start, and what to read there."""


def chapters(moments: Iterable[Moment], length_s: float) -> Iterator[Cue]:
    """Chapters in order of time; moments at one time share one. length_s: where the last one ends."""
    timed = sorted((max(0, round(1000 * at_s)), text) for at_s, text in moments)
    titles = [
        (at_ms, "; ".join(dict.fromkeys(text for _, text in group)))
        for at_ms, group in groupby(timed, key=lambda moment: moment[0])
    ]
    for (at_ms, text), (next_ms, _) in pairwise([*titles, (round(1000 * length_s), "")]):
        yield Cue(at_ms, max(next_ms, at_ms + 1), text)
