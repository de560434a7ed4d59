"""How fast the debrief page of a long drill is made and opens: `python -m tests.bench.opening --hours 2`.

Prints the size of the page, the seconds that it takes to make, and by chromium's own clock those until it is
painted, whole, and plays. The sound is bursts of tone in noise: Opus takes as much room for it as for people
who talk without a pause.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import soundfile
from playwright.sync_api import Browser

from handsfree.debrief import write_page
from handsfree.show.debrief.marks import Kind, Mark, Who
from handsfree.show.debrief.run import Run, Sound
from handsfree.signals import SAMPLE_RATE
from handsfree.webvtt import Cue
from tests.browser import chromium
from tests.show.debrief.runs import DRILL

FILE = "sound/long/soundtrack-1.ogg"

OPENINGS = 5

PAINTED = """() => new Promise((done) => new PerformanceObserver((list) => {
    const paint = list.getEntriesByName('first-contentful-paint')[0];
    if (paint) done(paint.startTime);
}).observe({type: 'paint', buffered: true}))"""

WHOLE = "() => performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd"

PLAYS = """() => new Promise((done) => {
    const clicked = performance.now();
    document.querySelector('#audio').addEventListener('playing', () => done(performance.now() - clicked));
    document.querySelectorAll('.marks button')[100].click();
})"""


def drill(hours: float) -> Run:
    """A mark each half minute, a sentence each five seconds."""
    length_s = hours * 3600
    kinds = list(Kind)
    return replace(
        DRILL,
        length_s=length_s,
        marks=tuple(
            Mark(
                at_s, kinds[n % len(kinds)], Who.INSTRUCTOR, text="Said while watching.", critical=n % 20 == 0
            )
            for n, at_s in enumerate(np.arange(10, length_s, 30).tolist())
        ),
        captions=tuple(
            Cue(ms, ms + 3000, "hands are clean and the sharps container is open", "Trainee")
            for ms in range(0, round(length_s * 1000), 5000)
        ),
        sounds=(Sound(FILE),),
    )


def record(file: Path, length_s: float) -> None:
    """Ten seconds of sound again and again."""
    t = np.arange(10 * SAMPLE_RATE) / SAMPLE_RATE
    tones = sum(np.sin(2 * np.pi * hz * t) for hz in (150, 450, 900, 1800))
    noise = np.random.default_rng(1).normal(0, 0.3, len(t))
    piece = (0.1 * (tones + noise) * np.clip(np.sin(2 * np.pi * t / 0.3), 0.02, 1)).astype(np.float32)
    file.parent.mkdir(parents=True)
    with soundfile.SoundFile(file, "w", SAMPLE_RATE, 1, format="OGG", subtype="OPUS") as sound:
        for _ in range(round(length_s / 10)):
            sound.write(piece)


def opened(browser: Browser, page: Path) -> tuple[float, float, float]:
    """Milliseconds until it is painted, whole, and from a click on a mark until it is heard."""
    context = browser.new_context()
    tab = context.new_page()
    tab.goto(page.as_uri(), wait_until="commit")
    painted, whole = tab.evaluate(PAINTED), 0.0
    tab.wait_for_load_state("domcontentloaded")
    while not whole:
        whole = tab.evaluate(WHOLE)
    plays = tab.evaluate(PLAYS)
    context.close()
    return painted, whole, plays


def results(hours: float, folder: Path) -> Iterator[str]:
    """Lines to print."""
    record(folder / FILE, hours * 3600)
    yield f"sound {(folder / FILE).stat().st_size / 1e6:.1f} MB"
    page = folder / "page.html"
    began = time.perf_counter()
    write_page([drill(hours)], folder, page)
    yield f"page {page.stat().st_size / 1e6:.1f} MB, made in {time.perf_counter() - began:.1f} s"
    with chromium() as browser:
        times = [opened(browser, page) for _ in range(OPENINGS)]
    for name, column in zip(("painted", "whole", "plays"), zip(*times, strict=True), strict=True):
        yield f"{name} {statistics.median(column):.0f} ms (median of {OPENINGS}, most {max(column):.0f})"


def main() -> None:
    """Print the results."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--hours", type=float, default=2.0)
    with tempfile.TemporaryDirectory() as folder:
        for line in results(options.parse_args().hours, Path(folder)):
            print(line)
            sys.stdout.flush()


if __name__ == "__main__":
    main()
