"""A door for a timed script, on a simulated clock."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable
from datetime import datetime
from typing import assert_never

from handsfree.clock import SimulatedClock
from handsfree.hear.script import Asleep, ClockSet, Cut, Moment, Spoken
from handsfree.hear.typed_words import typed_words
from handsfree.ports import Sentences
from handsfree.signals import Alternative, Gate, Lapsed, Utterance


class PowerCut(Exception):
    """The program was killed where it stood; the door stays open for the one that is started next."""


class TimeUp(Exception):
    """The simulation is over; the session stays as it is."""


class ScriptDoor:
    """Door over the moments of a script; ends `until_s` after the start.

    A sentence is heard when it has been said to its end, whatever the gate: the user wears a headset. What
    falls due while the user speaks waits until then. spoke: told start, end (seconds from the start) and text
    of what the user says.
    """

    def __init__(
        self,
        moments: Iterable[Moment],
        clock: SimulatedClock,
        until_s: float,
        spoke: Callable[[float, float, str], None],
    ) -> None:
        self._left, self._clock, self._until_s, self._spoke = deque(moments), clock, until_s, spoke

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Nothing to prepare: the grammar judges what was said."""

    def next(self, until: datetime | None) -> Utterance | Lapsed:
        """Let time pass to the next sentence, or to `until`. Raises PowerCut, TimeUp."""
        while True:
            at_s = min(self._left[0].at_s, self._until_s) if self._left else self._until_s
            due_s = at_s + 1 if until is None else self._clock.passed_s_at(until)
            self._clock.pass_to(min(at_s, due_s))
            if due_s <= at_s:
                return Lapsed()
            if at_s >= self._until_s:
                raise TimeUp
            utterance = self._happens(self._left.popleft())
            if utterance is not None:
                return utterance

    def _happens(self, moment: Moment) -> Utterance | None:
        match moment:
            case Spoken(_, text, lasts_s):
                start_s = self._clock.passed_s
                self._clock.pass_to(start_s + lasts_s)
                self._spoke(start_s, self._clock.passed_s, text)
                return Utterance((Alternative(typed_words(text)),))
            case ClockSet(_, by_s):
                self._clock.set_wall(by_s)
            case Asleep(at_s, lasts_s):
                self._clock.pass_to(at_s + lasts_s)
                self._left = deque(one for one in self._left if not self._was_missed(one))
            case Cut():
                raise PowerCut
            case _:
                assert_never(moment)
        return None

    def _was_missed(self, moment: Moment) -> bool:
        return isinstance(moment, Spoken) and moment.at_s < self._clock.passed_s
