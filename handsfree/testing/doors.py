"""A door behind which everything is said by script."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.clock import SoundClock
from handsfree.ports import Sentences
from handsfree.signals import Alternative, Closed, Gate, Lapsed, Utterance


class FakeDoor:
    """Door over utterances in order of their `decided_s`, in seconds from the clock's time when it was made.

    Time passes to the next utterance, or to `until`. What is said while the gate is deaf is lost.
    opened: every (gate, asks) that it was opened with.
    """

    def __init__(self, clock: SoundClock, *utterances: Utterance) -> None:
        self._clock, self._left = clock, list(utterances)
        self._start = clock.now()
        self._gate = Gate.DEAF
        self.opened: list[tuple[Gate, str]] = []

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on, and which question is open."""
        del sentences
        self._gate = gate
        self.opened.append((gate, asks))

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Let time pass to the next utterance, or to `until`."""
        while self._left:
            at = self._start + timedelta(seconds=self._left[0].decided_s)
            if until is not None and at > until:
                return self._lapse(until)
            self._pass_to(at)
            utterance = self._left.pop(0)
            if self._gate is Gate.OPEN:
                return utterance
        return Closed("The script has ended.") if until is None else self._lapse(until)

    def _lapse(self, until: datetime) -> Lapsed:
        self._pass_to(until)
        return Lapsed()

    def _pass_to(self, at: datetime) -> None:
        self._clock.advance((at - self._clock.now()).total_seconds())


def said(text: str, at_s: float = 0.0, *others: str) -> Utterance:
    """Make an utterance decided at `at_s`; `others` are its further alternatives, ever less likely."""
    readings = (text, *others)
    alternatives = tuple(
        Alternative(tuple(words.split()), -10.0 * rank) for rank, words in enumerate(readings)
    )
    return replace(Utterance(alternatives), start_s=at_s, end_s=at_s, decided_s=at_s)
