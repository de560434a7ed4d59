"""The board in a real browser, beside a session that runs."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from handsfree.glance import Glance, Running, Status
from handsfree.show.board.notice import Notices
from handsfree.show.board.server import Board, served
from handsfree.show.board.written import written
from handsfree.testing.dialogue import START
from tests.browser import violations
from tests.show.board.moments import MOMENTS, notice
from tests.show.board.picture import SIZES

pytestmark = pytest.mark.browser


@dataclass(frozen=True, slots=True)
class Live:
    """A session of the typed ear, with its board."""

    process: subprocess.Popen[str]
    url: str

    def say(self, line: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(f"{line}\n")
        self.process.stdin.flush()


RECORDED = Path(__file__).parents[3] / "audio_fixtures" / "sessions" / "aid_station_long.ogg"


@pytest.fixture
def live(tmp_path: Path) -> Iterator[Live]:
    with guided(tmp_path, "--ear", "typed") as session:
        yield session


@contextmanager
def guided(folder: Path, *options: str) -> Iterator[Live]:
    """A guide with its board, until this is over."""
    at = f"127.0.0.1:{_free_port()}"
    command = [sys.executable, "-m", "handsfree", "guide", *options, "--board-at", at]
    with subprocess.Popen(
        [*command, "--sessions", str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as process:
        assert process.stderr is not None
        url = process.stderr.readline().split()[-1]
        process.stderr.readline()
        code = process.stderr.readline().split()[-1]
        yield Live(process, f"{url}?code={code}")
        process.kill()


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def test_shows_the_step_and_what_was_heard(browser: Browser, live: Live) -> None:
    """The step, how to answer it, and what was understood; then the question and its answers."""
    page = browser.new_page()
    page.goto(live.url)

    expect(page.locator("#do")).to_have_text("Check two identifiers, or give the tag number.")
    expect(page.locator("#place")).to_contain_text("Order and patient · 0 of")
    live.say("two identifiers checked")
    expect(page.locator("#do")).to_have_text("Which fluid is ordered?")
    expect(page.locator("#heard")).to_have_text("Heard: two identifiers checked")
    live.say("normal saline")
    expect(page.locator("#do")).to_contain_text("Correct?")
    expect(page.locator("#say")).to_have_text("Say: “correct” or “wrong”")
    live.say("what ever that is")
    expect(page.locator("#heard")).to_contain_text("Not understood:")
    live.say("correct")
    expect(page.locator("#do")).to_have_text("What volume?")
    live.say("stop listening")
    expect(page.locator("#ear-words")).to_have_text("Not listening")
    page.close()


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
@pytest.mark.timeout(300)
def test_follows_a_session_that_is_heard(browser: Browser, tmp_path: Path) -> None:
    """A recorded person answers, as fast as the machine hears: every step comes to the board in its turn."""
    page = browser.new_page()
    page.add_init_script(SEEN)
    with guided(tmp_path, "--ear", "vosk", "--from", str(RECORDED)) as session:
        page.goto(session.url)
        session.process.wait(240)
        steps = iter(page.evaluate("window.seen"))
    assert [] == [step for step in IN_TURN if not any(step in one for one in steps)]
    page.close()


IN_TURN = (
    "Which fluid is ordered?",
    "1000 millilitres. Correct?",
    "Tourniquet on.",
    "Look for blood in the chamber",
    "Tourniquet off, before the needle comes out.",
    "Flush slowly.",
    "set forty two, four two drops a minute",
    "Every step is done.",
)
"""Of what is to be done, in this order."""

SEEN = """window.seen = []; new MutationObserver(() => {
    const step = document.getElementById('do')?.textContent;
    if (step && step != window.seen.at(-1)) window.seen.push(step);
}).observe(document, {subtree: true, childList: true, characterData: true});"""


def test_comes_back_after_a_lost_connection(browser: Browser, live: Live) -> None:
    """What happened meanwhile is there when the network is."""
    page = browser.new_page()
    page.goto(live.url)
    expect(page.locator("#do")).to_contain_text("identifiers")
    page.context.set_offline(True)
    live.say("two identifiers checked")
    page.context.set_offline(False)

    expect(page.locator("#do")).to_have_text("Which fluid is ordered?", timeout=15_000)
    page.close()


def test_who_comes_late_sees_the_right_time(browser: Browser) -> None:
    """A clock that began 75 s before the notice, seen ten minutes later, on a device with another clock."""
    notices = Notices()
    tied = Running("Tourniquet on", START - timedelta(seconds=75))
    notices.put_up(written(Glance(clocks=(tied,)), Status()))
    with served(Board(notices, lambda: START + timedelta(minutes=10)), "127.0.0.1", 0) as url:
        page = browser.new_page()
        page.goto(url)
        expect(page.locator("#clocks .left")).to_have_text(re.compile("11:1[5-9]"))
        page.close()


def test_asks_nobody_else(browser: Browser, live: Live) -> None:
    """Every request goes to the board itself."""
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(live.url)
    expect(page.locator("#do")).to_contain_text("identifiers")

    assert [] == [url for url in asked if not url.startswith(live.url.split("?", maxsplit=1)[0])]
    page.close()


@pytest.mark.parametrize("scheme", ["dark", "light"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_can_be_read_on_every_screen(
    browser: Browser, live: Live, width: int, height: int, scheme: str
) -> None:
    """WCAG 2.2 AA by axe-core; nothing is cut off, and the step's letters are large."""
    page = browser.new_page(viewport={"width": width, "height": height}, color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(live.url)
    expect(page.locator("#do")).to_contain_text("identifiers")

    assert [] == violations(page)
    assert [] == page.evaluate(OVERFLOWING)
    assert min(width, height) * 0.09 <= page.evaluate(
        "parseFloat(getComputedStyle(document.getElementById('do')).fontSize)"
    )
    page.close()


OVERFLOWING = """() => [...document.querySelectorAll('header p, main > *, #side, #heard')]
    .filter((one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1)
    .map((one) => one.id)"""


SMALLEST_PX = """() => Math.min(...[...document.querySelectorAll('p, h1, li, li span')]
    .filter((one) => one.textContent && !one.hidden && one.id != 'besides')
    .map((one) => parseFloat(getComputedStyle(one).fontSize)))"""


@pytest.mark.parametrize("moment", MOMENTS)
def test_every_moment_can_be_read(browser: Browser, moment: str) -> None:
    """On every screen nothing is cut off, and but for long answers no letters are smaller than 5 % of its
    shorter side: on a tablet of ten inches capitals of 5 mm, 1/600 of three metres (common practice, no
    source)."""
    text, now = notice(moment)
    notices = Notices()
    notices.put_up(text)
    with served(Board(notices, lambda: now), "127.0.0.1", 0) as url:
        page = browser.new_page()
        for width, height in SIZES:
            page.set_viewport_size({"width": width, "height": height})
            page.goto(url)
            expect(page.locator("#heard")).not_to_be_empty()
            assert [] == page.evaluate(OVERFLOWING)
            assert 0.05 * min(width, height) - 0.5 <= page.evaluate(SMALLEST_PX)
        assert [] == violations(page)
        page.close()


def test_colours_change_from_the_keyboard(browser: Browser, live: Live) -> None:
    """The one button is reached with Tab and pressed with Enter."""
    page = browser.new_page(color_scheme="light")
    page.goto(live.url)
    ground = "getComputedStyle(document.body).backgroundColor"
    light = page.evaluate(ground)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    assert light != page.evaluate(ground)
    page.close()


def test_page_for_the_code(browser: Browser, live: Live) -> None:
    """Without a code there is nothing to see but where to give one; WCAG 2.2 AA."""
    page = browser.new_page()
    page.goto(live.url.split("?", maxsplit=1)[0])

    expect(page.locator("h1")).to_have_text("Which code?")
    assert [] == violations(page)
    page.close()
