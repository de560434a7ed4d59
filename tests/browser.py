"""A real browser for tests of pages: Debian's chromium, driven by playwright."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")

QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", "--autoplay-policy=no-user-gesture-required"),
)
"""It asks nobody anything, and runs as root too."""

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
"""Rules of axe-core for WCAG 2.2, level AA."""


expect.set_options(timeout=30_000)  # a machine that does much else besides is slow, and not wrong


@contextmanager
def chromium() -> Iterator[Browser]:
    """One browser, closed at the end."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield browser
        browser.close()


def violations(page: Page) -> list[str]:
    """What axe-core finds against WCAG 2.2 AA on a page, as it stands; empty where all is well."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}})
    return [f"{one['id']}: {node['html']}" for one in found.response["violations"] for node in one["nodes"]]
