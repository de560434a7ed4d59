"""The picture in README.md: `python -m tests.show.board.picture docs/board.png`."""

from __future__ import annotations

import sys
from pathlib import Path

from playwright.sync_api import expect

from handsfree.conducts.guide import GUIDE
from handsfree.glance import Status
from handsfree.shelf import policy_from
from handsfree.show.board.notice import Notices
from handsfree.show.board.server import Board, served
from handsfree.show.board.written import written
from tests.browser import chromium
from tests.dialogues import RUN, TO_RUN, lexicon, told

WIDTH, HEIGHT = 960, 540


def main(file: Path) -> None:
    """A line that runs, with its next reminders, as the board shows it."""
    session = told(after=(*TO_RUN, *RUN), intervals=policy_from("common").intervals).session
    now = max(mark.at for mark in session.marks.values() if mark.at)
    seen = GUIDE.glance(session, lexicon().examples(GUIDE.listen(session, False)))
    notices = Notices()
    notices.put_up(written(seen, Status(heard="42 drops in sixty seconds")))
    with served(Board(notices, lambda: now), "127.0.0.1", 0) as url, chromium() as browser:
        page = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT}, color_scheme="dark")
        page.goto(url)
        expect(page.locator("#heard")).to_contain_text("Heard")
        page.screenshot(path=file)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
