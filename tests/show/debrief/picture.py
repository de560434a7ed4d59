"""The picture in docs/debrief.md: `python -m tests.show.debrief.picture docs/debrief.png`."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from handsfree.show.debrief.page import page
from tests.browser import chromium
from tests.show.debrief.runs import DRILL, FILE, recording


def draw(picture: Path) -> None:
    """From the critical moments to the time line, in light colours, with one of them being heard."""
    with tempfile.TemporaryDirectory() as folder, chromium() as browser:
        file = Path(folder) / "page.html"
        file.write_text("".join(page([DRILL], {FILE: recording()})), "utf-8")
        tab = browser.new_page(viewport={"width": 1000, "height": 860}, color_scheme="light")
        tab.goto(file.as_uri())
        tab.locator(".captions button").nth(1).click()
        tab.locator("#play").click()
        tab.locator("#critical").evaluate("heading => scrollTo(0, heading.offsetTop - 12)")
        tab.screenshot(path=picture)


if __name__ == "__main__":
    draw(Path(sys.argv[1]))
