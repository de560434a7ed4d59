"""What every door keeps to. Each check takes a fresh door and its clock."""

from __future__ import annotations

from datetime import timedelta

from handsfree.ports import Clock, Door, Sentences
from handsfree.signals import Closed, Gate, Lapsed, Noticed, Stirred, Utterance

_SOON = timedelta(seconds=0.1)


def check_lapse(door: Door, clock: Clock, sentences: Sentences) -> None:
    """A wait in which nothing is said ends when it should, and a time that is past is not waited for."""
    door.open(sentences, Gate.OPEN, "")
    until = clock.now() + _SOON
    assert door.next(until) == Lapsed()
    assert clock.now() >= until
    assert door.next(until) == Lapsed()


def check_heard(door: Door, sentences: Sentences, *said: str, asks: str = "") -> None:
    """Everything that was said comes out in order."""
    door.open(sentences, Gate.OPEN, asks)
    for words in said:
        heard = _next(door)
        assert isinstance(heard, Utterance)
        assert tuple(words.split()) in [reading.words for reading in heard.alternatives]


def check_closed(door: Door, sentences: Sentences, *said: str) -> None:
    """After the last word the door is closed, gives the reason, and stays closed."""
    check_heard(door, sentences, *said)
    for _ in range(2):
        closed = _next(door)
        assert isinstance(closed, Closed)
        assert closed.reason


def check_deaf(door: Door, clock: Clock, sentences: Sentences) -> None:
    """A deaf door hears nothing, and time passes all the same."""
    door.open(sentences, Gate.DEAF, "")
    until = clock.now() + _SOON
    assert isinstance(door.next(until), Lapsed | Closed)


def _next(door: Door) -> Utterance | Noticed | Lapsed | Closed:
    """What comes, but for the beginnings and ends of speech, of which not every door tells."""
    while isinstance(came := door.next(None), Stirred):
        pass
    return came
