"""The picture in docs/debrief.md: the page of a drill, in light colours."""

from __future__ import annotations

import tempfile
from pathlib import Path

from playwright.sync_api import Browser

from handsfree.show.debrief.page import page
from tests.show.debrief.runs import DRILL, FILE, recording


def draw(browser: Browser, picture: Path) -> None:
    """From the critical moments to the time line, with one of them at hand."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "page.html"
        file.write_text("".join(page([DRILL], {FILE: recording()})), "utf-8")
        tab = browser.new_page(viewport={"width": 1000, "height": 860}, color_scheme="light")
        tab.goto(file.as_uri())
        tab.locator(".captions button").nth(1).click()
        tab.locator("#play").click()
        tab.locator("#critical").evaluate("heading => scrollTo(0, heading.offsetTop - 12)")
        tab.screenshot(path=picture)
        tab.close()
