"""Bars on standard error: for what takes long, and for the level of sound."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

Progress = Callable[[float, float], None]
"""Told how much is done, and of how much."""


@contextmanager
def progress_bar(doing: str) -> Iterator[Progress]:
    """Nothing where standard error is not a terminal, and nothing left behind."""
    from rich.console import Console
    from rich.progress import Progress as Bar

    console = Console(stderr=True)
    with Bar(console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task(doing, total=None)
        yield lambda done, total: bar.update(task, completed=done, total=total)


@contextmanager
def level_meter(lowest_db: float) -> Iterator[Callable[[float], None]]:
    """A bar that is told levels in dB, from the lowest to full scale."""
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn
    from rich.progress import Progress as Bar

    console = Console(stderr=True)
    columns = (BarColumn(), TextColumn("{task.description}"))
    with Bar(*columns, console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task("", total=-lowest_db)
        yield lambda level_db: bar.update(
            task, completed=level_db - lowest_db, description=f"{level_db:.0f} dB"
        )
