"""The clock of a sound card is measured and corrected, whatever the machine does meanwhile.

The truth is known here: a simulated card of a known rate, whose frames come late as those of a busy machine.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care import events as e
from handsfree.care.sound_time import Track, tracks
from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.hear.synchroniser import STEP_S, Synchroniser
from handsfree.hear.tapped import Tapped
from handsfree.signals import FRAME_S
from handsfree.testing.ears import FakeEar, FakeSource
from handsfree.timeline import Anchor
from tests.sound_card import START, WITHIN_S, Card, Delay, ToldClock, TrueTime, at_ease, busy, drifting

HOUR = 3600
MOMENT = timedelta(milliseconds=1)


def heard(card: Card, sound_s: float) -> tuple[Track, Track]:
    """The track that the anchors make, and the same as a kill at the end would have left it."""
    clock = ToldClock()
    synchroniser = Synchroniser(clock)
    for frame, clock.at in card.arrivals(sound_s):
        synchroniser.take(frame)
    found = list(synchroniser.anchors())
    synchroniser.end()
    return track_of([*found, *synchroniser.anchors()]), track_of(found)


def track_of(anchors: list[Anchor]) -> Track:
    started, *others = anchors
    events = [e.SoundStarted("a", started.heard_at), *(e.SoundSynchronised("a", one) for one in others)]
    (track,) = tracks(e.Recorded(START, event) for event in events)
    return track


def worst_s(track: Track, card: Card, sound_s: float) -> float:
    """How far the track is off the truth at the worst, at two thousand moments."""
    moments = [sound_s * number / 2000 for number in range(2001)]
    return max(abs(track.sound_s(card.heard_at(moment)) - moment) for moment in moments)


def warming(sound_s: float) -> float:
    """From 100 to 60 millionths within the first half hour, then steady."""
    warm_s = min(sound_s, HOUR / 2)
    return sound_s + 1e-6 * (60 * sound_s + 40 * (warm_s - warm_s**2 / HOUR))


CARDS = [
    pytest.param(drifting(100), at_ease, id="100 ppm slow"),
    pytest.param(drifting(100), busy, id="100 ppm slow, busy machine"),
    pytest.param(drifting(-100), busy, id="100 ppm fast, busy machine"),
    pytest.param(warming, busy, id="a crystal that warms up"),
]


@pytest.mark.parametrize(("true_s", "delay_s"), CARDS)
def test_two_hours(true_s: TrueTime, delay_s: Delay) -> None:
    """At any moment of two hours the sound is where the journal says, though the clocks part by 0.72 s;
    after a kill as well. It takes few rows of the journal."""
    card = Card(true_s, delay_s)
    for track in heard(card, 2 * HOUR):
        assert worst_s(track, card, 2 * HOUR) < WITHIN_S
        assert len(track.anchors) < 30


def stepping(*steps: tuple[float, float]) -> TrueTime:
    """100 millionths slow, and at some seconds of sound later (or earlier) by some seconds from there on."""
    return lambda sound_s: sound_s * 1.0001 + sum(by_s for at_s, by_s in steps if sound_s > at_s)


STEPS = [
    pytest.param([(900, 3600)], id="the machine slept for an hour"),
    pytest.param([(900, 0.030)], id="more was lost than the device told"),
    pytest.param([(900, -0.030)], id="less was lost than the device told"),
    pytest.param([(300 + 60 * n, 0.006) for n in range(10)], id="a little more each minute"),
    pytest.param([(20, 0.5)], id="soon after the start"),
]


@pytest.mark.parametrize("steps", STEPS)
def test_steps(steps: list[tuple[float, float]]) -> None:
    """Sound that was lost and not told by the device puts nothing off for long: two seconds on, and before
    it, the sound is where the journal says."""
    card = Card(stepping(*steps), at_ease)
    ended, _ = heard(card, 1800)
    near = [at_s for at_s, by_s in steps if abs(by_s) >= STEP_S]
    moments = [one for one in range(1800) if not any(at_s - 2 < one < at_s + 2 for at_s in near)]

    for moment in moments:
        assert ended.sound_s(card.heard_at(moment)) == pytest.approx(moment, abs=WITHIN_S)


def test_a_machine_that_is_late_for_a_while_is_not_believed() -> None:
    """Twenty-five seconds in which every frame comes 50 ms late and more move nothing."""
    late = iter(range(10**6))
    card = Card(drifting(100), lambda random: at_ease(random) + (0.05 if next(late) in BUSY_FRAMES else 0))

    for track in heard(card, 600):
        assert worst_s(track, card, 600) < WITHIN_S


BUSY_FRAMES = range(round(300 / FRAME_S), round(325 / FRAME_S))


def test_a_recording_is_its_own_clock() -> None:
    """Its sound needs no anchor but the first: it begins when the clock did."""
    clock = SoundClock(START)
    synchroniser = Synchroniser(clock)
    door = SoundDoor(Tapped(FakeSource(*[""] * 1000), synchroniser.take), FakeEar(), clock)
    door.next(None)
    synchroniser.end()

    for anchor in synchroniser.anchors():
        assert anchor.heard_at == pytest.approx(START + timedelta(seconds=anchor.sound_s), abs=MOMENT)
        assert anchor.drift_ppm == pytest.approx(0, abs=0.1)
