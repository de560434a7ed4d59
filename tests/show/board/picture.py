"""Pictures of the board.

`python -m tests.show.board.picture FOLDER` draws every moment on every screen, to be looked at.
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
        page.clock.set_fixed_time(now)
        page.goto(url)
        expect(page.locator("#heard")).not_to_be_empty()
        page.screenshot(path=file)
        page.close()


def draw_all(folder: Path) -> None:
    """Every moment, on every screen, dark and light."""
    with chromium() as browser:
        for moment in MOMENTS:
            for width, height in SIZES:
                for scheme in ("dark", "light"):
                    file = folder / f"{moment.replace(' ', '-')}-{width}-{scheme}.png"
                    draw(browser, moment, (width, height), scheme, file)


if __name__ == "__main__":
    draw_all(Path(sys.argv[1]))
