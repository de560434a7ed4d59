"""The debrief page in a real browser: it plays what was clicked, obeys keys, and asks for nothing outside."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from handsfree.show.debrief.marks import Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.score import Rule, Score
from tests.dialogues import shipped
from tests.show.debrief.conftest import Open, Opened
from tests.show.debrief.runs import DRILL, EARLIER, FILE, recording
from tests.show.debrief.test_practised import run_of

pytestmark = pytest.mark.browser

NEAR_S = 0.05
"""How near to the moment that was asked for the audio element has to be."""

LONG = "Bergrettungsstützpunktleiterinnenstellvertreterin-Größenverhältnisüberprüfung"
WORDY = replace(
    DRILL,
    title=LONG,
    trainee=LONG,
    marks=tuple(replace(mark, text=LONG, step=LONG) for mark in DRILL.marks),
    steps=tuple(replace(step, title=LONG, value=LONG) for step in DRILL.steps),
    measures=tuple(replace(measure, name=LONG) for measure in DRILL.measures),
)


def only_its_own(opened: Opened) -> bool:
    """Whether nothing was asked for but the file and its own sound, and nothing was complained about."""
    inside = (opened.file.as_uri(), "blob:", "data:")
    return opened.complaints == [] and all(url.startswith(inside) for url in opened.asked)


@pytest.mark.parametrize(
    ("selector", "at_s"),
    [
        (".marks button", 20.0),
        (".marks li[data-critical=true] button", 84.0),
        ("[data-before]", 76.0),
        (".points button", 20.0),
        (".steps button", 20.0),
        (".measures button", 55.0),
        (".captions button", 19.0),
        (".score button", 84.0),
        ("svg.mark.critical .touch", 84.0),
    ],
)
def test_a_click_plays_from_that_moment(show: Open, selector: str, at_s: float) -> None:
    """Wherever a moment is named, a click on it is heard from there."""
    opened = show(DRILL)
    opened.page.locator(selector).first.click()

    assert opened.sought() == pytest.approx(at_s, abs=NEAR_S)
    assert opened.until(f"audio.currentTime > {at_s} && !audio.paused")
    assert only_its_own(opened)


def test_a_click_on_the_time_line(show: Open) -> None:
    """Half its width is half its time."""
    opened = show(replace(DRILL, marks=(), steps=()))
    line = opened.page.locator(".timeline")
    box = line.bounding_box()
    assert box is not None
    line.click(position={"x": box["width"] / 2, "y": 50})

    assert opened.sought() == pytest.approx(75.0, abs=0.2)


def test_runs_side_by_side_have_one_scale(show: Open) -> None:
    """Half the width is half of the longest run; what the player tells is the run's own length."""
    opened = show(EARLIER, replace(DRILL, marks=(), steps=()), sound=recording(190.0))
    line = opened.page.locator(".timeline").nth(1)
    box = line.bounding_box()
    assert box is not None
    line.click(position={"x": box["width"] / 2, "y": 50})

    assert opened.sought() == pytest.approx(95.0, abs=0.3)
    assert opened.until("document.querySelector('#time').textContent.endsWith('of 02:30')")


@pytest.mark.parametrize(
    ("anchors", "sound_s"),
    [
        (((0.0, 0.0),), 20.0),
        (((0.0, -30.0),), 50.0),
        (((0.0, 0.0), (100.0, 125.0)), 16.0),
    ],
    ids=["same", "second trainee", "fast sound card"],
)
def test_sound_with_another_clock(
    show: Open, anchors: tuple[tuple[float, float], ...], sound_s: float
) -> None:
    """A mark is heard where its moment is in the file, and the page tells the run's time all the same."""
    opened = show(replace(DRILL, sounds=(Sound(FILE, anchors),)), sound=recording(180.0))
    opened.page.locator(".marks button").first.click()

    assert opened.sought() == pytest.approx(sound_s, abs=NEAR_S)
    assert opened.until("document.querySelector('#time').textContent === '00:21 of 02:30'")


def test_keys(show: Open) -> None:
    """J and K go from mark to mark, C to what came before a critical one, the arrows by five seconds."""
    opened = show(DRILL)
    for key, at_s in (("j", 20.0), ("j", 41.0), ("c", 76.0), ("j", 84.0), ("k", 71.0)):
        opened.page.keyboard.press(key)
        assert opened.sought() == pytest.approx(at_s, abs=NEAR_S)
    opened.page.keyboard.press(" ")
    assert opened.until("audio.paused")
    there = opened.audio("currentTime")
    opened.page.keyboard.press("ArrowRight")
    assert opened.sought() == pytest.approx(there + 5, abs=0.3)


def test_keys_keep_out_of_writing_and_can_be_turned_off(show: Open) -> None:
    """A letter in the own view is a letter; without the tick a key does nothing (WCAG 2.2, 2.1.4)."""
    opened = show(DRILL)
    opened.page.locator("textarea").press_sequentially("jack c")
    assert "jack c" == opened.page.locator("textarea").input_value()
    opened.page.locator(".keys summary").click()
    opened.page.locator("#keys").uncheck()
    opened.page.locator("body").press("j")

    assert "" == opened.audio("currentSrc")


def test_everything_is_reached_by_tab(show: Open) -> None:
    """Each mark can be got at and played without a mouse."""
    opened = show(DRILL)
    for _ in range(200):
        opened.page.keyboard.press("Tab")
        if opened.page.evaluate("document.activeElement.matches('.marks button')"):
            break
    opened.page.keyboard.press("Enter")

    assert opened.sought() == pytest.approx(20.0, abs=NEAR_S)


def test_captions_follow(show: Open) -> None:
    """What was said at the moment stands in the player, and is marked in the list."""
    opened = show(DRILL)
    opened.page.locator(".captions button").nth(1).click()

    assert opened.until("document.querySelector('#caption').textContent === 'I can still feel it there'")
    assert ["I can still feel it there"] == opened.page.locator(".now-said span").all_text_contents()


def test_filters(show: Open) -> None:
    """Of kind, maker and weight; on the list and on the time line alike."""
    opened = show(DRILL)
    opened.page.get_by_label("critical alone").check()
    assert (2, 2) == tuple(
        opened.page.locator(f"{where}:not(.off)").count() for where in (".marks > li", "svg.mark")
    )
    opened.page.get_by_label("critical alone").uncheck()
    opened.page.locator("#filters summary").click()
    opened.page.get_by_label("instructor", exact=True).uncheck()
    assert "1 of 9" == opened.page.locator("#shown").text_content()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_light_and_dark(show: Open, scheme: str) -> None:
    """As the device wants it, unless the reader chooses."""
    ground = "getComputedStyle(document.body).backgroundColor"
    opened = show(DRILL, color_scheme=scheme)
    before = opened.page.evaluate(ground)
    opened.page.locator("#scheme").select_option("dark" if scheme == "light" else "light")

    assert {"light": "rgb(245, 243, 238)", "dark": "rgb(18, 24, 27)"}[scheme] == before
    assert before != opened.page.evaluate(ground)


@pytest.mark.parametrize("width", [390, 320])
@pytest.mark.parametrize("runs", [(DRILL,), (EARLIER, DRILL), (WORDY,)], ids=["one", "two", "long words"])
def test_fits_a_phone(show: Open, width: int, runs: tuple[object, ...]) -> None:
    """Only wide parts scroll sideways, each in a box of its own (320 px: WCAG 2.2, 1.4.10)."""
    opened = show(*runs, viewport={"width": width, "height": 844})

    assert width == opened.page.evaluate("document.documentElement.scrollWidth")


def signed_copy(opened: Opened, folder: Path) -> Path:
    """Overrule the first mark, sign, and keep what is downloaded."""
    opened.page.locator("textarea").fill("I lost the vein, and <b>breathed</b>.")
    opened.page.locator(".sign-form summary").click()
    opened.page.locator(".overrule").first.check()
    opened.page.locator(".because").first.fill("I saw it <i>done</i>.")
    opened.page.locator(".name").fill("Instructor two")
    with opened.page.expect_download() as download:
        opened.page.get_by_role("button", name="Sign and save a copy").click()
    copy = folder / "copy.html"
    download.value.save_as(copy)
    return copy


def test_a_signed_copy(show: Open, tmp_path: Path) -> None:
    """Holds the signature, what was overruled and the own view; plays; and cannot be signed again."""
    copy = show(file=signed_copy(show(DRILL), tmp_path))
    words = copy.page.locator("body").inner_text()

    assert "Signed by Instructor two" in words
    assert "8 of 9 marks accepted, 1 overruled" in words
    assert "Overruled by Instructor two: I saw it <i>done</i>." in words
    assert "Provisional" not in words
    assert "I lost the vein, and <b>breathed</b>." == copy.page.locator("textarea").input_value()
    assert copy.page.locator(".name").is_disabled()
    copy.page.locator(".marks button").nth(1).click()
    assert copy.sought() == pytest.approx(41.0, abs=NEAR_S)
    assert only_its_own(copy)


def test_without_sound(show: Open) -> None:
    """A moment leads to what was heard then; there is no player that could play nothing."""
    opened = show(replace(DRILL, sounds=()))
    opened.page.locator(".marks button").nth(4).click()

    assert not opened.page.locator("#player").is_visible()
    assert ["I can still feel it there"] == opened.page.locator(".now-said span").all_text_contents()
    assert only_its_own(opened)


def test_sound_that_cannot_be_played(show: Open) -> None:
    """Damaged beyond what the browser reads: said in the player."""
    opened = show(DRILL, sound=replace(recording(), ogg=b"OggS" + bytes(400)))
    opened.page.locator(".marks button").first.click()

    assert opened.until("document.querySelector('#caption').textContent.includes('cannot be played')")


def sheets(pdf: bytes) -> int:
    """How many pages a PDF has: objects of that type (ISO 32000-1, 7.7.3.3)."""
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def test_prints_on_one_sheet(show: Open) -> None:
    """A practice run of the longest checklist, with its own view, moments, times, steps and score."""
    checklist = shipped()
    steps = tuple(
        Step(
            step.name,
            step.do,
            State.DONE,
            9.0 * n,
            step.phase,
            "twenty drops" if step.value else "",
            critical=step.critical,
        )
        for n, step in enumerate(checklist.steps)
        if step.branch in ("", checklist.branches[0])
    )
    rules = tuple(
        Rule(f"{step.title} In order, and in time.", 1, 2, "Twelve seconds late.") for step in steps[:10]
    )
    opened = show(replace(DRILL, sort=Sort.PRACTICE, length_s=560.0, steps=steps, score=Score(rules)))
    opened.page.locator("textarea").fill("I lost the vein.")

    assert 50 < len(steps)
    assert 1 == sheets(opened.page.pdf(prefer_css_page_size=True))


def many_marks() -> Run:
    """A drill in which nearly everything went wrong."""
    marks = tuple(
        Mark(
            5.0 * n,
            Kind.UNSAFE,
            Who.INSTRUCTOR,
            "Clean your hands.",
            "Needle lay on the blanket.",
            critical=n % 3 == 0,
        )
        for n in range(45)
    )
    gaps = tuple(Point("The skin was not left to dry.", 84.0) for _ in range(12))
    return replace(DRILL, marks=marks, gaps=gaps, length_s=300.0)


@pytest.mark.parametrize("run", [run_of("silence"), many_marks()], ids=["practice", "drill"])
def test_many_errors_print_on_one_sheet(show: Open, run: Run) -> None:
    """A practice run of the longest checklist in which all was missed, and a drill full of marks."""
    opened = show(replace(run, sounds=()))

    assert len(run.critical) > 12
    assert 1 == sheets(opened.page.pdf(prefer_css_page_size=True))
