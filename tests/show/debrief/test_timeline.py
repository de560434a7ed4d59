"""Where things stand on the time line, and what stands in tables side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.show.debrief.marks import Kind, Mark, Who
from handsfree.show.debrief.run import Run, Sound
from handsfree.show.debrief.score import Limit, Measure
from handsfree.show.debrief.tables import measure_rows, step_phases
from handsfree.show.debrief.timeline import MOST_PARTS, MOST_ROWS, timeline
from handsfree.show.debrief.tracks import Recording, Track, along, loudness, tracks_of
from handsfree.show.debrief.trend import trends
from tests.show.debrief.runs import DRILL, EARLIER, FILE


@dataclass(frozen=True)
class Column:
    run: Run


LOUD_THEN_QUIET = Recording(b"", 4.0, (1.0, 1.0, 0.0, 0.25))


@given(st.lists(st.floats(0, 7200), max_size=80), st.floats(0, 7200))
def test_marks_lie_where_their_time_is(times: list[float], length_s: float) -> None:
    """Each mark once, at its time; two of a row keep apart, but for the last one, which takes the rest."""
    run = replace(DRILL, length_s=length_s, marks=tuple(Mark(t, Kind.NOTE, Who.PROGRAM) for t in times))
    placed = timeline(run, (), 7200.0).marks

    assert sorted(one.number for one in placed) == list(range(len(times)))
    assert all(one.x == pytest.approx(100 * one.mark.at_s / 7200) for one in placed)
    for row in range(MOST_ROWS - 1):
        xs = sorted(one.x for one in placed if one.row == row)
        assert all(b - a >= 2 for a, b in pairwise(xs))


@pytest.mark.parametrize(
    ("length_s", "first", "count"),
    [(1, 5, 1), (45, 5, 10), (150, 30, 6), (7200, 900, 9), (90_000, 14_400, 7)],
)
def test_ticks_are_round_and_few(length_s: float, first: int, count: int) -> None:
    """Never more than ten, at times that a clock shows."""
    ticks = timeline(replace(DRILL, length_s=length_s), (), length_s).ticks

    assert (count, 0) == (len(ticks), ticks[0][0])
    assert count == 1 or first == ticks[1][0]


@pytest.mark.parametrize(
    ("at_s", "heard"),
    [
        (0.0, [1.0, 1.0, 0.0, 0.25, 0.0, 0.0]),
        (2.0, [0.0, 0.0, 1.0, 1.0, 0.0, 0.25]),
        (-2.0, [0.0, 0.25, 0.0, 0.0, 0.0, 0.0]),
    ],
)
def test_waveform_stands_where_the_sound_was(at_s: float, heard: list[float]) -> None:
    """A recording that began before or after the run lies on its line accordingly."""
    found = list(loudness((Track(0, ((0.0, at_s),), LOUD_THEN_QUIET),), 6.0, 6))

    assert [round(one, 2) for one in found] == heard


@pytest.mark.parametrize(
    ("pairs", "x", "y"),
    [
        (((0.0, 5.0),), 2.0, 7.0),
        (((0.0, 0.0), (10.0, 20.0), (20.0, 30.0)), 5.0, 10.0),
        (((0.0, 0.0), (10.0, 20.0), (20.0, 30.0)), 15.0, 25.0),
        (((0.0, 0.0), (10.0, 20.0), (20.0, 30.0)), 25.0, 35.0),
        (((0.0, 0.0), (10.0, 20.0)), -1.0, -2.0),
        (((0.0, 0.0), (7200.0, 7200.72)), 3600.0, 3600.36),
    ],
)
def test_time_goes_evenly_between_anchors(pairs: tuple[tuple[float, float], ...], x: float, y: float) -> None:
    """The last row is a sound card that is 100 millionths slow."""
    assert y == pytest.approx(along(pairs, x))


def test_sound_of_another_time_is_left_out() -> None:
    """A file that ended before the run, or began after it, is none of its sound."""
    runs = [replace(DRILL, sounds=(Sound(FILE, ((0.0, at_s),)),)) for at_s in (-5.0, -3.0, 149.0, 151.0)]

    assert [0, 1, 1, 0] == [len(tracks_of(run, {FILE: LOUD_THEN_QUIET})) for run in runs]


def test_clip_ends_where_it_was_decided_on() -> None:
    """Of a clip only its end is known; two hours have no more parts than a page can draw."""
    run = replace(DRILL, sounds=(Sound(FILE, (), 20.0), Sound("other")))
    (track,) = tracks_of(run, {FILE: LOUD_THEN_QUIET})

    assert (16.0, 20.0) == (track.at_s, track.until_s)
    assert MOST_PARTS == timeline(replace(run, length_s=7200), (track,), 7200).parts


@pytest.mark.parametrize(
    ("measure", "met"),
    [
        (Measure("tie", 60.0, 60.0), True),
        (Measure("tie", 60.1, 60.0), False),
        (Measure("dry", 29.9, 30.0, Limit.AT_LEAST), False),
        (Measure("dry", 30.0, 30.0, Limit.AT_LEAST), True),
        (Measure("tie", None, 60.0), None),
        (Measure("tie", 60.0), None),
    ],
)
def test_targets(measure: Measure, met: bool | None) -> None:
    """A target is kept up to its very second; what was not taken or has none is neither."""
    assert met is measure.met


def test_rows_of_runs_side_by_side() -> None:
    """A time of one run alone leaves the other's cell empty; steps stand under their phase."""

    columns = [Column(DRILL), Column(EARLIER)]
    rows = list(measure_rows(columns))

    assert [measure.name for measure in DRILL.measures] == [first.name for first, _, _ in rows]
    assert [True, True, False, False] == [cells[1] is not None for _, cells, _ in rows]
    assert [600.0, 71.0, 30.0, 5.0] == [longest for _, _, longest in rows]
    phases = list(step_phases(columns))
    assert ["Equipment", "Site", "Cannulate", "Watch"] == [phase for phase, _ in phases]
    assert len(DRILL.steps) == sum(len(group) for _, group in phases)


def test_trend_is_of_one_trainee() -> None:
    """Oldest first; none for a single run, for nobody, or for two people."""
    found = {trend.figure: trend.values for trend in trends([DRILL, EARLIER])}

    assert {"critical moments": (3, 2), "cues used": (1, 1), "minutes": (3.2, 2.5)} == {
        figure: found[figure] for figure in ("critical moments", "cues used", "minutes")
    }
    assert (40, 40) == found["points, per cent"]
    assert [] == list(trends([DRILL]))
    assert [] == list(trends([replace(DRILL, trainee=""), replace(EARLIER, trainee="")]))
    assert [] == list(trends([DRILL, replace(EARLIER, trainee="Red one")]))
