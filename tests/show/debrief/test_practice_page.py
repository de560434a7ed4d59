"""The page of a practice run in a real browser, in every shape that it has."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.show.debrief.practised import LEAD_S
from handsfree.show.debrief.run import Run, Sound
from handsfree.signals import SAMPLE_RATE
from tests.browser import violations
from tests.care.practice.rub_runs import RUNS as RUB_RUNS
from tests.house.documents import blocks
from tests.show.debrief.conftest import Open, Opened
from tests.show.debrief.runs import FILE
from tests.show.debrief.test_browser import NEAR_S, sheets
from tests.show.debrief.test_practised import decided, run_of
from tests.voice.practice import clip_file, spoken
from tests.voice.sound_shape import AFTER_S

pytestmark = pytest.mark.browser


@dataclass(frozen=True, slots=True)
class Shape:
    """A run, and those of the same trainee before it. regions: headings of parts that not all have."""

    run: Run
    earlier: tuple[Run, ...] = ()
    regions: tuple[str, ...] = ()


def _robins(name: str, days: int = 0) -> Run:
    run = run_of(name)
    return replace(run, trainee="Robin", began=run.began + timedelta(days=days))


SHAPES: dict[str, Callable[[], Shape]] = {
    "perfect": lambda: Shape(run_of("perfect")),
    "critical": lambda: Shape(run_of("needle_on_wet_skin"), regions=("Strengths and gaps",)),
    "faults": lambda: Shape(run_of("two_faults")),
    "cues": lambda: Shape(run_of("cues")),
    "nothing done": lambda: Shape(run_of("silence"), regions=("Strengths and gaps",)),
    "overruled": lambda: Shape(decided(), regions=("Strengths and gaps",)),
    "trend": lambda: Shape(_robins("cues", 2), (_robins("wrong_arm"), _robins("needle_left_open", 1))),
}
"""By name; made when they are shown."""

EVERYWHERE = ("Critical moments", "Times", "What was heard", "Score")


@cache
def shape(name: str) -> Shape:
    """With the sound of its run."""
    found = SHAPES[name]()
    return replace(found, run=replace(found.run, sounds=(Sound(FILE),)))


def opened_in(show: Open, name: str, **options: object) -> Opened:
    its = shape(name)
    return show(its.run, earlier=its.earlier, **options)


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 390)])
@pytest.mark.parametrize("name", SHAPES)
def test_axe_finds_nothing(show: Open, name: str, width: int, scheme: str) -> None:
    """WCAG 2.2 A and AA by axe-core, with everything open that can be opened; no wider than the screen."""
    opened = opened_in(show, name, color_scheme=scheme, viewport={"width": width, "height": 844})
    opened.page.evaluate("document.querySelectorAll('details').forEach((each) => (each.open = true))")

    assert [] == violations(opened.page)
    assert width == opened.page.evaluate("document.documentElement.scrollWidth")
    assert [] == opened.complaints


@pytest.mark.parametrize("name", SHAPES)
def test_prints_on_one_sheet(show: Open, name: str) -> None:
    """Whatever went wrong, and however many runs there were before."""
    assert 1 == sheets(opened_in(show, name).page.pdf(prefer_css_page_size=True))


@pytest.mark.parametrize("name", SHAPES)
def test_roles(show: Open, name: str) -> None:
    """A screen reader finds parts by heading, steps by row, moments by name, curves with their values."""
    opened = opened_in(show, name)
    its, page = shape(name), opened.page
    critical = page.get_by_role("region", name="Critical moments")
    rows = page.get_by_role("group", name="Steps, can be scrolled").get_by_role("rowheader")
    curves = [one.get_attribute("aria-label") for one in page.locator("svg.trend").all()]

    assert 1 == page.get_by_role("heading", level=1).count()
    for heading in (*EVERYWHERE, *its.regions):
        assert 1 == page.get_by_role("region", name=heading).count(), heading
    assert len(its.run.critical) == critical.get_by_role("listitem").count()
    assert {step.title for step in its.run.steps} <= {
        one.removesuffix(" critical") for one in rows.all_inner_texts()
    }
    assert all("Play" in text for text in page.locator("button.moment").all_text_contents())
    assert bool(its.earlier) == any(text and "critical moments: 1, 1, 0" in text for text in curves)


def test_by_keyboard_alone(show: Open) -> None:
    """Tab leads to a rule that failed, Enter plays what led to it; C and J go to moments, space stops."""
    opened = opened_in(show, "critical")
    score = shape("critical").run.score
    assert score is not None
    (failed,) = [one for one in score.rules if one.because == "Needle before dry."]
    for _ in range(300):
        opened.page.keyboard.press("Tab")
        if opened.page.evaluate("document.activeElement.matches('.score button')"):
            break
    else:
        pytest.fail("no rule of the score is reached by Tab")
    while failed.because not in opened.page.evaluate("document.activeElement.closest('tr').innerText"):
        opened.page.keyboard.press("Tab")
    opened.page.keyboard.press("Enter")

    assert failed.at_s is not None
    assert opened.sought() == pytest.approx(failed.at_s - LEAD_S, abs=NEAR_S)
    opened.page.keyboard.press(" ")


SPOKEN = "too short"
"""A run of the hand rub in which a critical rule fails by time, as recorded."""


@pytest.fixture(scope="module")
def debriefed(vosk_model: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a run that was heard by the whole program, with the page that it made of it."""
    folder = tmp_path_factory.mktemp("debriefed")
    (folder / "hand_rub.toml").write_text(blocks("docs/practice.md", "toml")[0])
    soundfile.write(folder / "said.wav", spoken(RUB_RUNS[SPOKEN], "piper_joe").sound, SAMPLE_RATE)
    for words in ("practice hand_rub.toml --from said.wav --voice printed", "debrief last --out page.html"):
        ran = subprocess.run(
            [sys.executable, "-m", "handsfree", *words.split(), "--sessions", "kept"],
            cwd=folder, capture_output=True, text=True, check=False, timeout=100,
        )  # fmt: skip
        assert ran.returncode == 0, ran.stderr
    return folder


@pytest.mark.vosk
@pytest.mark.parametrize("place", ["critical", "score"])
def test_a_rule_that_failed_plays_its_words(show: Open, debriefed: Path, place: str) -> None:
    """From recording to page: a click on it plays the sentence that broke it, and no other."""
    opened = show(file=debriefed / "page.html")
    row = "li" if place == "critical" else "tr"
    failed = opened.page.locator(f"[aria-labelledby={place}] {row}", has_text="too short").first
    failed.locator("button:not([data-before])").click()
    from_s = opened.sought()

    assert opened.until(f"audio.currentTime > {from_s} && !audio.paused")
    assert led_s(debriefed, from_s) == pytest.approx(LEAD_S, abs=0.5)


def led_s(folder: Path, from_s: float) -> float:
    """How long after a second of the kept sound the recorded sentence ends, found by its wave form."""
    (kept,) = (folder / "kept").rglob("*.ogg")
    sound, rate = soundfile.read(kept, dtype="float32")
    clip, clip_rate = soundfile.read(clip_file("and now my hands are dry", "piper_joe"), dtype="float32")
    sound, clip = (np.asarray(one, np.float32) for one in (sound, clip))
    heard = sound[round(from_s * rate) : round((from_s + LEAD_S + len(clip) / clip_rate) * rate)]
    alike = np.correlate(heard, clip, "valid")
    at = int(np.argmax(alike))
    of = np.linalg.norm(heard[at : at + len(clip)]) * np.linalg.norm(clip)
    assert rate == clip_rate
    assert alike[at] > 0.7 * of
    return (at + len(clip)) / int(rate) - AFTER_S
