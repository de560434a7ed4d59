"""The pictures in README.md and docs/, drawn by one command: `python -m tests.house.pictures`."""

from __future__ import annotations

import base64
from collections.abc import Callable, Mapping
from pathlib import Path

from playwright.sync_api import Browser

from tests.browser import chromium
from tests.house.documents import ROOT
from tests.show.board import picture as board
from tests.show.debrief import picture as debrief

PICTURES: Mapping[str, Callable[[Browser, Path], None]] = {
    "docs/board.png": lambda browser, file: board.draw(browser, "it runs", (960, 540), "dark", file),
    "docs/debrief.png": debrief.draw,
}

_DIFFERENT = """async pictures => {
    const [one, other] = await Promise.all(pictures.map(async png => {
        const bitmap = await createImageBitmap(await (await fetch("data:image/png;base64," + png)).blob());
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
        canvas.drawImage(bitmap, 0, 0);
        return canvas.getImageData(0, 0, bitmap.width, bitmap.height);
    }));
    if (one.width !== other.width || one.height !== other.height) return 1;
    const far = one.data.filter((value, at) => Math.abs(value - other.data[at]) > 32);
    return far.length / one.data.length;
}"""


def different(browser: Browser, one: Path, other: Path) -> float:
    """Which part of two pictures is not the same to the eye, 0 to 1."""
    page = browser.new_page()
    pictures = [base64.b64encode(file.read_bytes()).decode() for file in (one, other)]
    found = float(page.evaluate(_DIFFERENT, pictures))
    page.close()
    return found


def draw_all(root: Path) -> None:
    """All of them, anew, each at its place under `root`."""
    with chromium() as browser:
        for place, draw in PICTURES.items():
            draw(browser, root / place)


if __name__ == "__main__":
    draw_all(ROOT)
