"""The picture in README.md: `python -m tests.show.board.picture docs/board.png`.

With a folder in place of the file: every moment on every screen, to be looked at.
"""

from __future__ import annotations

import sys
from pathlib import Path

from playwright.sync_api import Browser, expect

from handsfree.show.board.notice import Notices
from handsfree.show.board.server import Board, served
from tests.browser import chromium
from tests.show.board.moments import MOMENTS, notice

SIZES = ((1280, 800), (800, 1280), (390, 844))


def draw(browser: Browser, moment: str, size: tuple[int, int], scheme: str, file: Path) -> None:
    """One moment on one screen. scheme: dark or light."""
    text, now = notice(moment)
    notices = Notices()
    notices.put_up(text)
    with served(Board(notices, lambda: now), "127.0.0.1", 0) as url:
        viewport = {"width": size[0], "height": size[1]}
        page = browser.new_page(viewport=viewport, color_scheme=scheme)  # type: ignore[arg-type]
        page.goto(url)
        expect(page.locator("#heard")).not_to_be_empty()
        page.screenshot(path=file)
        page.close()


def main(place: Path) -> None:
    """Into a file, a line that runs; into a folder, all."""
    with chromium() as browser:
        if not place.is_dir():
            draw(browser, "it runs", (960, 540), "dark", place)
            return
        for moment in MOMENTS:
            for width, height in SIZES:
                for scheme in ("dark", "light"):
                    file = place / f"{moment.replace(' ', '-')}-{width}-{scheme}.png"
                    draw(browser, moment, (width, height), scheme, file)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
