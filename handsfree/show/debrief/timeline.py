"""The time line of a run: where on it everything stands, in per cent of its width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from handsfree.show.debrief.marks import Mark, Step
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.tracks import Track, loudness

MOST_PARTS = 7200
"""Of the waveform: a second each in a drill of two hours, which stays sharp when it is drawn wider."""

MOST_ROWS = 5
"""Of marks that would lie on one another."""

_MARK_WIDTH = 2.2
"""Of a mark, in per cent of the narrowest time line."""

_TICKS_S = (5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400)
_MOST_TICKS = 9


@dataclass(frozen=True, slots=True)
class Placed:
    """A mark on the line. number: its place among the run's marks. row: 0 is the uppermost."""

    mark: Mark
    number: int
    x: float
    row: int


@dataclass(frozen=True, slots=True)
class Timeline:
    """length_s: what the whole width is; of runs side by side, the longest. width: this run's part of it.

    wave: path of the waveform in a box of `parts` by 100, empty where there is no sound. ticks: seconds and
    their places. steps: those that were done, and their places.
    """

    length_s: float
    width: float
    parts: int
    wave: str
    ticks: tuple[tuple[int, float], ...]
    marks: tuple[Placed, ...]
    steps: tuple[tuple[Step, float], ...]

    @property
    def rows(self) -> int:
        """How many rows of marks there are, at least one."""
        return max((placed.row for placed in self.marks), default=0) + 1


def timeline(run: Run, tracks: Sequence[Track], length_s: float) -> Timeline:
    """Lay a run out on a line of so many seconds."""
    length_s = max(length_s, 1.0)
    parts = max(min(round(run.length_s * 4), MOST_PARTS), 1)
    done = [(step, step.at_s) for step in run.every_step if step.at_s is not None]
    return Timeline(
        length_s=length_s,
        width=100 * run.length_s / length_s,
        parts=parts,
        wave=_path(list(loudness(tracks, run.length_s, parts))) if tracks else "",
        ticks=tuple((s, 100 * s / length_s) for s in range(0, int(length_s) + 1, _tick_s(length_s))),
        marks=tuple(_placed(run.marks, length_s)),
        steps=tuple((step, 100 * at_s / length_s) for step, at_s in done),
    )


def _tick_s(length_s: float) -> int:
    return next((s for s in _TICKS_S if length_s / s <= _MOST_TICKS), int(length_s / _MOST_TICKS))


def _path(peaks: Sequence[float]) -> str:
    """A bar for each part, as tall as it is loud; the square root shows quiet speech too."""
    halves = (max(round(48 * peak**0.5), 1) for peak in peaks)
    return "".join(f"M{part}.5 {50 - half}v{2 * half}" for part, half in enumerate(halves))


def _placed(marks: Sequence[Mark], length_s: float) -> Iterator[Placed]:
    """Each mark in the first row in which it lies on no other; in the last one where there is none."""
    ends = [-_MARK_WIDTH] * MOST_ROWS
    for number, mark in sorted(enumerate(marks), key=lambda pair: pair[1].at_s):
        x = min(max(100 * mark.at_s / length_s, 0.0), 100.0)
        row = next((n for n, end in enumerate(ends) if x >= end), MOST_ROWS - 1)
        ends[row] = x + _MARK_WIDTH
        yield Placed(mark, number, x, row)
