"""The tables of the hearing benchmark, as Markdown, from the results of one run or several."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Sequence

import numpy as np

from tests.bench.hearing_noises import LEVELS, QUIET
from tests.bench.hearing_results import Overheard, Result, Told

VERDICTS = ("right", "wrong", "asked", "refused")

HARD = "espeak-ng"
"""Its voices are hard to follow for people too: they stand apart from the sums."""

Cell = Callable[[Sequence[Told]], str]


def tables(results: Iterable[Result]) -> str:
    """All tables, for every ear in turn."""
    found = list(results)
    ears = dict.fromkeys(one.ear for one in found)
    return "\n\n".join(_of_ear(ear, [one for one in found if one.ear == ear]) for ear in ears)


def _of_ear(ear: str, found: list[Result]) -> str:
    told = [one for one in found if isinstance(one, Told)]
    overheard = [one for one in found if isinstance(one, Overheard)]
    parts = [f"## {ear}"]
    if told:
        easy = [one for one in told if one.synthesiser != HARD]
        parts += [
            f"Of {len(told)} commands: {', '.join(VERDICTS)} in per cent, and how many.",
            outcomes(told),
            "By kind of noise, without " + HARD,
            _table(("noise", *_levels(told)), _Rows(told).of(easy, lambda one: one.noise, _cell)),
            "Seconds from the last sound to a right decision: median, 90th, 99th percentile; (stock Vosk)",
            waits(easy),
            "Computing, of real time",
            computing(told),
        ]
    if overheard:
        parts += ["Other speech: commands accepted", _other(overheard)]
    return "\n\n".join(parts)


def outcomes(told: Sequence[Told]) -> str:
    """By voice, synthesiser and field: what came of the commands."""
    easy = [one for one in told if one.synthesiser != HARD]
    hard = [one for one in told if one.synthesiser == HARD]
    grid = _Rows(told)
    rows = grid.of(easy, lambda one: one.voice, _cell) + grid.of(hard, lambda one: one.voice, _cell)
    rows += grid.of(easy, lambda one: one.field, _cell)
    rows += grid.of(easy, lambda one: f"**all but {HARD}**", _cell)
    rows += grid.of(easy, lambda one: "stock Vosk, the same", lambda some: _cell(some, stock=True))
    rows += grid.of(hard, lambda one: f"**{HARD}**", _cell)
    return _table(("voice, field", *_levels(told)), rows)


def waits(told: Sequence[Told]) -> str:
    """How long the person waits for a right answer, beside stock Vosk for the same sentences."""
    right = [one for one in told if one.verdict == "right" and one.wait_s is not None]
    rows = _Rows(right).of(right, lambda one: "more can follow" if one.more else "nothing can follow", _wait)
    return _table(("sentence", *_levels(right)), sorted(rows))


def computing(told: Sequence[Told]) -> str:
    """Seconds of computing for a second of sound, while somebody speaks and while nobody does."""
    grid = _Rows(told)
    rows = grid.of(told, lambda one: "while somebody speaks", lambda some: _share(some, "speech"))
    rows += grid.of(told, lambda one: "while nobody speaks", lambda some: _share(some, "still"))
    return _table(("", *_levels(told)), rows)


def _other(found: Sequence[Overheard]) -> str:
    rows = []
    for grammar, called in sorted({(one.grammar.partition(":")[0], one.called) for one in found}):
        some = [one for one in found if (one.grammar.partition(":")[0], one.called) == (grammar, called)]
        rows.append([grammar, "yes" if called else "no", *_hourly(some)])
    for called in sorted({one.called for one in found}):
        some = [one for one in found if one.called == called]
        rows.append(["**all**", "yes" if called else "no", *_hourly(some)])
    return _table(
        ("grammar", "call word", "hours", "accepted", "an hour", "asked, an hour", "computing"), rows
    )


def _hourly(some: Sequence[Overheard]) -> list[str]:
    hours = sum(one.sound_s for one in some) / 3600
    accepted, asked = sum(len(one.accepted) for one in some), sum(one.asked for one in some)
    used = sum(one.used_s for one in some) / hours / 3600
    return [f"{hours:.2f}", str(accepted), f"{accepted / hours:.1f}", f"{asked / hours:.1f}", f"{used:.3f}"]


def _levels(told: Iterable[Told]) -> list[str]:
    return [level if level == QUIET else f"{level} dB" for level in _Rows(told).levels]


class _Rows:
    """Rows of a table that has a column for each level that occurs."""

    def __init__(self, told: Iterable[Told]) -> None:
        there = {one.level for one in told}
        self.levels = [level for level in LEVELS if level in there]

    def of(self, told: Iterable[Told], name: Callable[[Told], str], cell: Cell) -> list[list[str]]:
        """A row for each name, in order of first use."""
        groups: dict[str, list[Told]] = {}
        for one in told:
            groups.setdefault(name(one), []).append(one)
        return [[group, *self._cells(some, cell)] for group, some in groups.items()]

    def _cells(self, told: Sequence[Told], cell: Cell) -> list[str]:
        columns = [[one for one in told if one.level == level] for level in self.levels]
        return [cell(some) if some else "" for some in columns]


def _cell(some: Sequence[Told], *, stock: bool = False) -> str:
    number: Counter[Hashable] = Counter(one.stock if stock else one.verdict for one in some)
    if stock and number[""]:
        return ""
    return " / ".join(f"{100 * number[verdict] / len(some):.1f}" for verdict in VERDICTS) + f" ({len(some)})"


def _wait(some: Sequence[Told]) -> str:
    ours = [one.wait_s for one in some if one.wait_s is not None]
    stock = [one.stock_wait_s for one in some if one.stock_wait_s is not None]
    return _percentiles(ours) + (f" ({_percentiles(stock)})" if stock else "")


def _percentiles(seconds: Sequence[float]) -> str:
    return " / ".join(f"{np.quantile(seconds, share):.2f}" for share in (0.5, 0.9, 0.99))


def _share(some: Sequence[Told], part: str) -> str:
    used = sum(getattr(one, f"{part}_used_s") for one in some)
    return f"{used / max(1e-9, sum(getattr(one, f'{part}_s') for one in some)):.4f}"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)
