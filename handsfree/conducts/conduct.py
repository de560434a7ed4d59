"""What kind of session runs: what it decides, remembers and says. The corridor knows no more of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import Generic, Protocol, TypeVar

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.commands import Command
from handsfree.care.vocabulary import Vocabulary
from handsfree.glance import Glance
from handsfree.signals import Chime, Keeps, Listen

Examples = Mapping[str, str]
"""By grammar rule: a sentence that can be said now."""


class Course(Protocol):
    """What is asked of a session of any kind."""

    @property
    def over(self) -> bool:
        """Whether it has ended."""

    @property
    def wants_free_words(self) -> bool:
        """Whether what no grammar holds is waited for, and kept as sound."""

    @property
    def keeps(self) -> Keeps:
        """Which sound of it is kept."""

    def deadline(self) -> datetime | None:
        """When the next tick is due; None where nothing is."""


S = TypeVar("S", bound=Course)


@dataclass(frozen=True, slots=True)
class Conduct(Generic[S]):
    """One kind of session, as pure functions; they share the events and the commands of all.

    vocabulary: what a session of it lets people say. new: before the first event. begin, resume: the first
    events, also after it was cut off. listen, ahead: what may be said now, and soon; told whether a call word
    is wanted, where there is one. sentence: what is said because of an event, after it.
    sure: by grammar rule, the confidence that a command needs beyond the judge's own. chime: the short sound
    that is heard because of an event. glance: what can be seen from across the room. beat: drops a minute
    that are to be heard ticking, if any.
    """

    vocabulary: Callable[[S], Vocabulary]
    new: Callable[[Checklist, e.SessionStarted, datetime], S]
    begin: Callable[[S, e.SessionStarted, datetime], tuple[e.Event, ...]]
    resume: Callable[[S, e.SessionResumed, datetime], tuple[e.Event, ...]]
    decide: Callable[[S, Command, datetime], tuple[e.Event, ...]]
    evolve: Callable[[S, e.Event, datetime], S]
    listen: Callable[[S, bool], Listen]
    ahead: Callable[[S, bool], Iterable[Listen]]
    sentence: Callable[[e.Event, S, Examples], str]
    sure: Mapping[str, float]
    chime: Callable[[e.Event, S], Chime | None] = lambda event, session: None
    glance: Callable[[S, Examples], Glance] = lambda session, examples: Glance()
    beat: Callable[[S], Fraction | None] = lambda session: None

    def fold(self, session: S, records: Iterable[e.Recorded]) -> S:
        """The session after all of these events."""
        for record in records:
            session = self.evolve(session, record.event, record.at)
        return session
