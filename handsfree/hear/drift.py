"""The clock of a sound card against the machine's: a straight line under all arrivals.

Sound comes late by a delay that differs from piece to piece and is never below zero, so the truth runs along
the lower edge. Of the convex hull of the points, the edge under their middle is the line that lies below all
and closest to them (Zhang, Liu and Xia, "Clock synchronization algorithms for network measurements", IEEE
INFOCOM 2002).
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

SHORT_S = 20.0
"""Over less sound than this, what a delay makes is larger than what a clock does: its rate is not drawn from
it."""

SPAN_S = 600.0
"""A line is drawn through so much sound, up to twice as much: a crystal that warms up changes its rate."""


@dataclass(frozen=True, slots=True)
class Line:
    """How much later it is than the sound's own time: by late_s at from_s, and by slope for each second."""

    from_s: float
    late_s: float
    slope: float = 0.0

    def at(self, sound_s: float) -> float:
        """The seconds by which it is later when so much sound has passed."""
        return self.late_s + self.slope * (sound_s - self.from_s)


class Hull:
    """The lower convex hull of points that come in order: it holds few of them, however many come.

    slope: that of its line until the points tell.
    """

    def __init__(self, slope: float) -> None:
        self._slope = slope
        self._points: list[tuple[float, float]] = []
        self._first_s = self._last_s = 0.0

    @property
    def span_s(self) -> float:
        """From the first point to the last."""
        return self._last_s - self._first_s

    def add(self, sound_s: float, late_s: float) -> None:
        """Take a point to the right of all others."""
        points = self._points
        if not points:
            self._first_s = sound_s
        self._last_s = sound_s
        while len(points) > 1 and _turns_up(points[-2], (sound_s, late_s), points[-1]):
            points.pop()
        points.append((sound_s, late_s))

    def line(self) -> Line:
        """The line under all points; of the known slope while they span less than SHORT_S."""
        if self.span_s < SHORT_S:
            return Line(*min(self._points, key=lambda point: point[1] - self._slope * point[0]), self._slope)
        middle_s = (self._first_s + self._last_s) / 2
        right = bisect_right(self._points, (middle_s,))
        (x, y), (next_x, next_y) = self._points[right - 1 : right + 1]
        return Line(x, y, (next_y - y) / (next_x - x))


class Drift:
    """The line as it is of late: through the last SPAN_S of sound, up to twice as much. Memory stays flat.

    slope: as it is known at the start.
    """

    def __init__(self, slope: float = 0.0) -> None:
        self._older, self._younger = Hull(slope), Hull(slope)

    def add(self, sound_s: float, late_s: float) -> None:
        """Take how much later than its own time a piece of sound came; pieces come in order."""
        if self._younger.span_s >= SPAN_S:
            self._older, self._younger = self._younger, Hull(self.line().slope)
        for hull in (self._older, self._younger):
            hull.add(sound_s, late_s)

    def line(self) -> Line:
        """The line by now; needs a point."""
        return self._older.line()


def _turns_up(a: tuple[float, float], b: tuple[float, float], between: tuple[float, float]) -> bool:
    """Whether a point lies on or above the way from a to b."""
    (ax, ay), (bx, by), (x, y) = a, b, between
    return (y - ay) * (bx - ax) >= (by - ay) * (x - ax)
