"""Tables of several runs side by side: a row for each name, a cell for each run."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import Protocol, TypeVar

from handsfree.show.debrief.marks import Step
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.score import Measure

Item = TypeVar("Item")
Row = tuple[Item, list[Item | None]]
"""An item, and that of the same name in each run, None where a run has none."""


class HasRun(Protocol):
    """What stands in a column."""

    @property
    def run(self) -> Run:
        """The run of the column."""


def measure_rows(columns: Sequence[HasRun]) -> Iterator[tuple[Measure, list[Measure | None], float]]:
    """The times of the runs by name, each with the longest of its row in seconds, its target included."""
    for first, cells in _rows([one.run.measures for one in columns], lambda measure: measure.name):
        taken = [seconds for one in cells if one for seconds in (one.took_s, one.target_s)]
        yield first, cells, max((seconds for seconds in taken if seconds), default=1.0)


def step_phases(columns: Sequence[HasRun]) -> Iterator[tuple[str, list[Row[Step]]]]:
    """The steps of the runs by name, under the titles of their phases, in order."""
    rows = _rows([one.run.every_step for one in columns], lambda step: step.name)
    for phase, group in groupby(rows, key=lambda row: row[0].phase):
        yield phase, list(group)


def _rows(tables: Sequence[Sequence[Item]], name: Callable[[Item], str]) -> list[Row[Item]]:
    by_name = [{name(item): item for item in table} for table in tables]
    names = dict.fromkeys(name(item) for table in tables for item in table)
    cells = [[table.get(each) for table in by_name] for each in names]
    return [(next(cell for cell in row if cell is not None), row) for row in cells]
