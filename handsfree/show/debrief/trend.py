"""How the runs of one trainee go on: a small chart for each figure that two runs have."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType

from handsfree.show.debrief.run import Run
from handsfree.words import worded

_FIGURES: Mapping[str, Callable[[Run], float | None]] = MappingProxyType(
    {
        worded("critical moments"): lambda run: len(run.critical),
        worded("cues used"): lambda run: len(run.cues),
        worded("minutes"): lambda run: round(run.length_s / 60, 1),
        worded("points, per cent"): lambda run: (
            round(100 * run.score.got / run.score.of) if run.score and run.score.of else None
        ),
    }
)


@dataclass(frozen=True, slots=True)
class Trend:
    """A figure over the runs of a trainee, oldest first."""

    trainee: str
    figure: str
    values: tuple[float, ...]

    @property
    def points(self) -> tuple[tuple[float, float, float], ...]:
        """For each value its place in a box of 100 by 100, from the upper left, and the value."""
        highest = max(*self.values, 1)
        across = 100 / (len(self.values) - 1)
        return tuple((n * across, 100 - 100 * value / highest, value) for n, value in enumerate(self.values))


def trends(runs: Sequence[Run]) -> Iterator[Trend]:
    """The trends of everybody who was named, and ran the same more than once."""
    named = sorted((run for run in runs if run.trainee), key=lambda run: (*same(run), run.began))
    for (_, _, trainee), group in groupby(named, key=same):
        theirs = list(group)
        for figure, of in _FIGURES.items():
            values = tuple(value for run in theirs if (value := of(run)) is not None)
            if len(theirs) > 1 and len(values) == len(theirs):
                yield Trend(trainee, figure, values)


def same(run: Run) -> tuple[str, str, str]:
    """What runs share that can be compared: kind of session, checklist and trainee."""
    return run.sort.value, run.title, run.trainee
