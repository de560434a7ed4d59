"""The terminal as a board: one calm full-screen view, or plain lines where the output is no terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from datetime import datetime
from types import MappingProxyType, TracebackType

from rich.console import Console, Group, RenderableType
from rich.live import Live
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from handsfree.glance import Glance, Hearing, Running, Status, besides
from handsfree.words import worded

REFRESHED_PER_S = 2

_EARS = MappingProxyType(
    {
        Hearing.OPEN: Text(worded("● listening"), "green"),
        Hearing.DEAF: Text(worded("■ speaking"), "yellow"),
        Hearing.PAUSED: Text(worded("○ not listening"), "red"),
    }
)
"""A sign, a word and a colour: each of them tells it alone."""


class Screen(AbstractContextManager["Screen"]):
    """Shows the newest moment until it is left. now: the session's time, for the clocks on it."""

    def __init__(self, console: Console, now: Callable[[], datetime]) -> None:
        self._console, self._now = console, now
        self._seen, self._status = Glance(), Status()
        self._printed: tuple[str, ...] = ()
        self._live = Live(
            console=console,
            screen=True,
            get_renderable=self._drawn,
            refresh_per_second=REFRESHED_PER_S,
            redirect_stdout=False,
            redirect_stderr=False,
        )

    def __enter__(self) -> Screen:
        if self._console.is_terminal:
            self._live.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._live.stop()

    def show(self, seen: Glance, status: Status) -> None:
        """Put up a moment; in plain lines, what has changed of it."""
        self._seen, self._status = seen, status
        if self._console.is_terminal:
            self._live.refresh()
            return
        lines = tuple(_lines(seen, status))
        for line in lines:
            if line not in self._printed:
                self._console.print(line, markup=False, highlight=False, soft_wrap=True)
        self._printed = lines

    def _drawn(self) -> RenderableType:
        return drawn(self._seen, self._status, self._now())


def drawn(seen: Glance, status: Status, now: datetime) -> RenderableType:
    """A moment for a terminal of any width."""
    return Group(
        _head(seen, status),
        Rule(style="dim"),
        *([Text(f" {seen.alert} ", "bold reverse red"), Text()] if seen.alert else []),
        Text(seen.do, "bold"),
        *([Text(spoken, "dim")] if (spoken := besides(seen, status)) else []),
        *([Text(_say(seen), "green")] if seen.say else []),
        Text(),
        *(Text(line) for line in seen.rate),
        *(_clock(running, now) for running in seen.clocks),
        Rule(style="dim"),
        Text(_heard(status), "" if status.understood else "yellow"),
    )


def _head(seen: Glance, status: Status) -> Table:
    head = Table.grid(expand=True)
    head.add_column(ratio=1)
    head.add_column(justify="right", no_wrap=True)
    head.add_row(
        Text(" · ".join(part for part in (seen.title, seen.place) if part), "dim"), _EARS[status.ear]
    )
    return head


def _lines(seen: Glance, status: Status) -> Iterator[str]:
    parts = (seen.alert, seen.do, besides(seen, status), _say(seen), *seen.rate, _heard(status))
    return (part for part in parts if part)


def _say(seen: Glance) -> str:
    said = worded(" or ").join(f"“{one}”" for one in seen.say)
    return said and worded("Say: {said}", said=said)


def _heard(status: Status) -> str:
    if not status.heard:
        return ""
    if status.understood:
        return worded("Heard: {words}", words=status.heard)
    return worded("Not understood: {words}", words=status.heard)


def _clock(running: Running, now: datetime) -> Text:
    s = int((now - running.at).total_seconds())
    late = running.due and s > 0
    shown = f"{'+' if late else ''}{_span(-s if running.due and not late else max(s, 0))}"
    return Text(f"{shown:>8}  {running.label}", "bold red" if late or running.urgent else "")


def _span(seconds: int) -> str:
    """ "1:15" of minutes and seconds, "1:02:15" with hours."""
    hours, rest = divmod(seconds, 3600)
    minutes, left_s = divmod(rest, 60)
    return f"{hours}:{minutes:02}:{left_s:02}" if hours else f"{minutes}:{left_s:02}"
