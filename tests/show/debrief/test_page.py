"""The debrief page as text: what stands on it and in which order. How it behaves: test_browser.py."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from datetime import UTC, datetime
from html.parser import HTMLParser

import pytest

from handsfree.show.debrief.marks import Fault, Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.page import clock, page
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.score import Measure, Rule, Score
from handsfree.webvtt import Cue
from tests.show.debrief.runs import DRILL, EARLIER, FILE, recording

BARE = Run("one", Sort.GUIDE, "Site check", datetime(2031, 5, 4, 8, tzinfo=UTC), 0.0)


class Elements(HTMLParser):
    """Start tags with their attributes, and the text between them."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.headings: list[str] = []
        self._in_heading = False
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._in_heading = tag == "h2"

    def handle_data(self, data: str) -> None:
        if self._in_heading and data.strip():
            self.headings.append(data.strip())
            self._in_heading = False


def written(*runs: Run, sound: bool = True) -> str:
    return "".join(page(runs, {FILE: recording(2.0)} if sound else {}))


def test_own_view_first_and_score_last() -> None:
    """The order in which a debrief is held; only the signature comes after the score."""
    assert [
        "Your own view",
        "Critical moments",
        "Strengths and gaps",
        "Times",
        "What was heard",
        "Score",
        "Signing",
    ] == Elements(written(DRILL)).headings


def test_what_is_not_there_has_no_place() -> None:
    """A run of which nothing is known makes a page all the same."""
    assert ["Your own view", "Critical moments", "Times"] == Elements(written(BARE)).headings


EVIL = "</script><script>alert(1)</script><img src=x onerror='alert(2)'>\"{{ 7*7 }}"


def test_everything_is_escaped() -> None:
    """Whatever a name, a reason or a caption holds, it makes no element of its own."""
    said = Run(
        EVIL,
        Sort.PRACTICE,
        EVIL,
        datetime(2031, 5, 4, 8, tzinfo=UTC),
        60.0,
        EVIL,
        EVIL,
        marks=(Mark(1.0, Kind.UNSAFE, Who.INSTRUCTOR, EVIL, EVIL, EVIL, critical=True),),
        steps=(Step(EVIL, EVIL, State.SKIPPED, 2.0, EVIL, EVIL, EVIL),),
        strengths=(Point(EVIL),),
        gaps=(Point(EVIL, 3.0),),
        measures=(Measure(EVIL, 3.0, 2.0, source=EVIL),),
        faults=(Fault(1.0, EVIL, EVIL),),
        score=Score((Rule(EVIL, 0, 1, EVIL),), EVIL),
        captions=(Cue(0, 1000, EVIL, EVIL),),
        sounds=(Sound(EVIL),),
        notices=(EVIL,),
    )
    plain = replace(said, title="x", trainee="x", own_view="x", session="x")
    text = written(said, replace(said, trainee="Other"), sound=False)
    tags = [tag for tag, _ in Elements(text).tags]

    assert "img" not in tags
    assert tags.count("script") == [tag for tag, _ in Elements(written(plain)).tags].count("script") - 1
    assert "<script>alert" not in text
    assert "{{ 7*7 }}" in text


def test_policy_names_what_is_inline_and_nothing_else() -> None:
    """The one style and the one script by their hashes (CSP Level 3, 2.3.1), sound from the page alone."""
    text = written(DRILL)
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]+)"', text)
    inline = {kind: re.findall(rf"<{kind}>(.*?)</{kind}>", text, re.DOTALL) for kind in ("style", "script")}

    assert [1, 1] == [len(found) for found in inline.values()]
    for kind, (body,) in inline.items():
        digest = base64.b64encode(hashlib.sha256(body.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'; base-uri 'none'; form-action 'none'; media-src blob:;")


def test_nothing_leads_out_of_the_file() -> None:
    """No element refers to anything but a part of the page itself."""
    refers = [
        value
        for _, attributes in Elements(written(DRILL, EARLIER)).tags
        for name, value in attributes.items()
        if name in ("src", "href", "action", "data", "poster", "srcset", "style")
    ]

    assert refers
    assert [] == [value for value in refers if not (value or "").startswith("#sign-")]


def test_every_sign_is_drawn() -> None:
    """What a mark or a step points at is among the drawn signs, for every kind and state."""
    every = replace(
        DRILL,
        marks=tuple(Mark(1.0, kind, Who.PROGRAM) for kind in Kind),
        steps=tuple(Step(state.value, state.value, state) for state in State),
    )
    tags = Elements(written(every)).tags
    used = {attributes["href"] for tag, attributes in tags if tag == "use"}
    drawn = {f"#{attributes['id']}" for tag, attributes in tags if tag == "symbol"}

    assert drawn == used


@pytest.mark.parametrize(
    ("run", "sound", "told"),
    [
        (DRILL, False, f"The sound file {FILE} is missing or cannot be read."),
        (replace(DRILL, notices=("Row 4 is lost.",)), True, "Row 4 is lost."),
        (DRILL, True, "Provisional: no instructor has signed the marks yet."),
        (replace(DRILL, signed=True), True, "Accepted by an instructor."),
    ],
)
def test_standing_and_losses_are_told(run: Run, sound: bool, told: str) -> None:
    """What is missing stands on the page in a sentence."""
    assert told in written(run, sound=sound)


def test_score_is_told_with_what_stands_beside_it() -> None:
    """Critical moments and cues are counted apart from the points; rules with all their points are folded."""
    text = re.sub(r"<[^>]+>", "", written(DRILL))

    assert "2 of 5 points, beside 2 critical moments, with 1 cue" in text
    assert "Rules with all their points: 1" in text


def test_earlier_runs_stand_in_the_trend_alone() -> None:
    """A chart of two values, and one column."""
    text = "".join(page([DRILL], {}, [EARLIER]))

    assert 'aria-label="critical moments: 3, 2"' in text
    assert 1 == text.count('class="card run"')


def test_sound_is_kept_once_for_all_runs() -> None:
    """Two trainees of one drill share its file."""
    text = written(DRILL, replace(DRILL, sounds=(Sound(FILE, ((0.0, -1.0),)),)))

    assert 1 == text.count('<script type="text/plain"')
    assert base64.b64encode(recording(2.0).ogg).decode() in text


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(0, "00:00"), (59.9, "00:59"), (130, "02:10"), (3600, "1:00:00"), (36125, "10:02:05")],
)
def test_times_are_read_as_on_a_clock(seconds: float, words: str) -> None:
    """Hours stand where there are any."""
    assert words == clock(seconds)
