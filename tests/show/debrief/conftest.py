"""The debrief page in a real browser."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from handsfree.show.debrief.page import page
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.tracks import Recording
from tests.show.debrief.runs import FILE, recording


@dataclass
class Opened:
    """A page in the browser, what it asked for, and what it complained about."""

    page: Page
    file: Path
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def audio(self, expression: str) -> Any:
        """A property of the audio element."""
        return self.page.evaluate(f"document.querySelector('#audio').{expression}")

    def until(self, expression: str) -> Any:
        """Wait until an expression holds in the page; returns it.

        Playwright's own way of waiting makes code out of text, which the page's policy forbids.
        """
        wait = "new Promise((wake) => setTimeout(wake, 20))"
        return self.page.evaluate(
            f"async () => {{ let found; while (!(found = {expression})) await {wait}; return found; }}"
        )

    def sought(self) -> float:
        """Wait until the audio element is sent to a moment; returns it in seconds, as the element tells."""
        return float(self.until("window.sought.splice(0).at(-1)"))


_LISTEN = """window.sought = [];
const audio = document.querySelector('#audio');
audio.addEventListener('seeking', () => window.sought.push(audio.currentTime));"""

Open = Callable[..., Opened]


@pytest.fixture
def show(browser: Browser, tmp_path: Path) -> Iterator[Open]:
    """Open the page of some runs, or a file; options are those of a browser context."""
    contexts = []

    def opening(
        *runs: Run,
        sound: Recording | None = None,
        file: Path | None = None,
        earlier: Sequence[Run] = (),
        **options: Any,
    ) -> Opened:
        context = browser.new_context(offline=True, **{"color_scheme": "light", **options})
        contexts.append(context)
        tab = context.new_page()
        opened = Opened(tab, file or tmp_path / "page.html")
        if file is None:
            recordings = {FILE: sound or recording()} if any(run.sounds for run in runs) else {}
            opened.file.write_text("".join(page(runs, recordings, earlier)), "utf-8")
        tab.on("request", lambda request: opened.asked.append(request.url))
        tab.on("console", lambda message: opened.complaints.append(message.text))
        tab.on("pageerror", lambda error: opened.complaints.append(str(error)))
        tab.goto(opened.file.as_uri())
        tab.evaluate(_LISTEN)
        return opened

    yield opening
    for context in contexts:
        context.close()
