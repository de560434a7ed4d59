"""A decision in the making: the events so far, and the session as they leave it."""

from __future__ import annotations

from datetime import datetime

from handsfree.care import events as e
from handsfree.care.lines import evolve_lines
from handsfree.care.path import contradicted_by, ended_by, next_step
from handsfree.care.reminders.asked import TOPICS
from handsfree.care.rules import Mode
from handsfree.care.session import Session


class Decision:
    """Collects events; each later choice sees the session after the earlier ones."""

    def __init__(self, session: Session, at: datetime) -> None:
        self.session = session
        self.at = at
        self.events: list[e.Event] = []

    def add(self, event: e.Event) -> Decision:
        """Take one event."""
        self.session = evolve_lines(self.session, event, self.at)
        self.events.append(event)
        return self

    def close(self, event: e.StepClosed) -> None:
        """Close a step; what it begins anew, and what it contradicts, is to be done again."""
        self.add(event)
        step = self.session.checklist.step(event.step)
        again = (*ended_by(self.session, step), *contradicted_by(self.session, step))
        if again:
            self.add(e.StepsReopened(again, step.name))

    def has(self, kind: type[e.Event]) -> bool:
        """Whether an event of this kind came out of it so far."""
        return any(isinstance(event, kind) for event in self.events)

    def move_on(self, *, again: bool = False) -> None:
        """Go to the next step, or say that all is done; back to the checklist underneath, where one is."""
        step = next_step(self.session)
        if step is None and self.session.under is not None:
            self.end_checklist("done")
        else:
            self.open(step.name if step else "", again=again)

    def open(self, step: str, *, again: bool) -> None:
        """Have a step at hand, and tell what it tells."""
        self.add(e.StepOpened(step, again))
        for topic in self.session.checklist.step(step).tells if step else ():
            self.add(TOPICS[topic](self.session, self.at))

    def end_checklist(self, how: str) -> None:
        """Back to the checklist underneath, where what was asked is asked again."""
        self.close_checklist(how)
        self.ask_again()

    def ask_again(self) -> None:
        """Say again what is asked, or why the step is stopped."""
        if self.session.stop is not None:
            self.add(self.session.stop)
        else:
            self.again()

    def close_checklist(self, how: str) -> None:
        """Note that the checklist at hand is over."""
        left = tuple(step.name for step in self.session.left_open())
        self.add(e.ChecklistEnded(self.session.checklist.name, how, left))

    def again(self) -> None:
        """Say again what is waited for."""
        match self.session.mode:
            case Mode.CONFIRMING if self.session.proposal:
                self.add(e.ReadBack(self.session.proposal.unusual))
            case Mode.WALKING:
                self.open(self.session.step, again=True)
            case _:
                self.add(e.Told("repeat"))

    def lift_stop(self) -> None:
        """End a stop because its ground is gone."""
        if self.session.stop is not None:
            self.add(e.StopLifted(self.session.stop.step))
