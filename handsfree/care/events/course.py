"""The session itself: begin, silence, questions in between, end."""

from __future__ import annotations

from dataclasses import dataclass

from handsfree.care.commands import Say
from handsfree.care.infusion.limits import Limit
from handsfree.care.practice.terms import Terms
from handsfree.care.reminders.policy import Interval


@dataclass(frozen=True, slots=True)
class ChecklistText:
    """A checklist that may begin in the session: its file, and the text of it."""

    file: str
    text: str


@dataclass(frozen=True, slots=True)
class SessionStarted:
    """text: the checklist file. others: those that may begin over it.

    utc_offset_min: local time less UTC. reads_back: all values are confirmed.
    signs_after_s: seconds of silence after which it is said once that the session listens; 0 for never.
    intervals, limits: of the policy; the session keeps to them, though its file was edited since.
    kind: of session, by its name in `conducts`. terms: what a practice run is held under, else None.
    trainees: names that can be said in a drill. sound: whether all sound is to be kept.
    """

    checklist: str
    file: str
    text: str
    ear: str
    reads_back: bool
    utc_offset_min: int
    signs_after_s: int = 0
    intervals: tuple[Interval, ...] = ()
    kind: str = "guide"
    others: tuple[ChecklistText, ...] = ()
    terms: Terms | None = None
    trainees: tuple[str, ...] = ()
    sound: bool = False
    limits: tuple[Limit, ...] = ()


@dataclass(frozen=True, slots=True)
class SessionResumed:
    """The session goes on after it was cut off. ear: the one that hears from now on.

    set_back_s: how much earlier the clock reads than when the session was last heard of, else 0. lost: how
    many rows of its record are missing or damaged.
    """

    ear: str
    reads_back: bool
    signs_after_s: int = 0
    set_back_s: int = 0
    lost: int = 0


@dataclass(frozen=True, slots=True)
class SessionEnded:
    """how: "by voice" or "input ended"."""

    how: str


@dataclass(frozen=True, slots=True)
class ChecklistBegun:
    """Another checklist begins over the one at hand, whose steps are not heard meanwhile."""

    checklist: str


@dataclass(frozen=True, slots=True)
class ChecklistEnded:
    """Back to the checklist underneath. how: "done" or "left". open_steps: those that were not closed."""

    checklist: str
    how: str
    open_steps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EmergencyRaised:
    """Words of an emergency were said."""

    emergency: str


@dataclass(frozen=True, slots=True)
class ReasonAsked:
    """For what a reason is wanted: "skip" or "override"."""

    what: str


@dataclass(frozen=True, slots=True)
class ReasonDropped:
    """No reason was given."""


@dataclass(frozen=True, slots=True)
class ChoiceAsked:
    """Asked which of two sentences was said; nothing of either counts until that is answered."""

    candidates: tuple[Say, ...]


@dataclass(frozen=True, slots=True)
class ChoiceMade:
    """One of the two was said; what follows from it comes next."""


@dataclass(frozen=True, slots=True)
class ChoiceDropped:
    """Neither counts. why: "neither", "lapsed" or "misheard"."""

    why: str


@dataclass(frozen=True, slots=True)
class Held:
    """Silence, at once, until "carry on"."""


@dataclass(frozen=True, slots=True)
class Released:
    """Speaking again."""


@dataclass(frozen=True, slots=True)
class ListeningPaused:
    """Only the words to listen again, and emergencies, are heard."""


@dataclass(frozen=True, slots=True)
class ListeningResumed:
    """Everything is heard again."""


@dataclass(frozen=True, slots=True)
class EndAsked:
    """Asked whether the session shall end."""


@dataclass(frozen=True, slots=True)
class EndDropped:
    """The session goes on."""


@dataclass(frozen=True, slots=True)
class Undone:
    """The last change was taken back."""
