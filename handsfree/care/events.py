"""What happened, as past participles: the record is made of these, and a session is the fold over them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class SessionStarted:
    """text: the checklist's file. utc_offset_min: local time less UTC. reads_back: every value is confirmed."""

    checklist: str
    file: str
    text: str
    ear: str
    reads_back: bool
    utc_offset_min: int


@dataclass(frozen=True, slots=True)
class SessionResumed:
    """The session goes on after it was cut off. ear: the one that hears from now on."""

    ear: str
    reads_back: bool


@dataclass(frozen=True, slots=True)
class SessionEnded:
    """how: "by voice" or "input ended"."""

    how: str


@dataclass(frozen=True, slots=True)
class SpeechUnderstood:
    """A sentence of the grammar. changes: it may close or change steps, so that it can be undone."""

    rule: str
    text: str
    confidence: float
    changes: bool


@dataclass(frozen=True, slots=True)
class SpeechNotUnderstood:
    """Speech that is no sentence now. sound: path of its clip, if kept."""

    text: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class SpeechWavered:
    """Speech that could be one of several sentences."""

    candidates: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StepOpened:
    """The step is the one at hand. again: it was there before (after a back, a lapse or an undo)."""

    step: str
    again: bool = False


@dataclass(frozen=True, slots=True)
class StepClosed:
    """kind and value are empty where words close the step. words: as they were said. confirmed: read back."""

    step: str
    kind: str = ""
    value: str = ""
    words: str = ""
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class StepSkipped:
    """reason: words of the grammar, or what an ear made of them. sound: its clip where it is unverified."""

    step: str
    reason: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class StepLeftOpen:
    """Asked and not understood again and again: it stays visibly open."""

    step: str


@dataclass(frozen=True, slots=True)
class StepsReopened:
    """because: the finding, or what changed."""

    steps: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class AlreadyClosed:
    """Words of a step that is closed."""

    step: str


@dataclass(frozen=True, slots=True)
class ValueProposed:
    """A value that counts once it is read back and confirmed."""

    step: str
    kind: str
    value: str


@dataclass(frozen=True, slots=True)
class ReadBack:
    """All proposed values were read back. unusual: what makes a second confirmation necessary."""

    unusual: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ConfirmedOnce:
    """Confirmed, but unusual: asked once more."""


@dataclass(frozen=True, slots=True)
class ProposalConfirmed:
    """The values read back are taken; a StepClosed follows for each."""


@dataclass(frozen=True, slots=True)
class ProposalDropped:
    """why: "wrong", "lapsed", "misheard" or a reason for which the values are impossible."""

    why: str


@dataclass(frozen=True, slots=True)
class RateComputed:
    """The drip rate, exact, from confirmed values only."""

    volume_ml: Fraction
    time_min: Fraction
    rate_ml_per_h: Fraction
    drop_factor_per_ml: Fraction
    drop_rate_per_min: Fraction


@dataclass(frozen=True, slots=True)
class StopRaised:
    """The step cannot go on. may_override: a spoken reason lifts it.

    ground: out_of_date, differs, clash, attempts or disagrees. kind, value: the answer that raised it.
    other_kind, other_value: what it does not agree with.
    """

    step: str
    ground: str
    kind: str
    value: str
    other_kind: str = ""
    other_value: str = ""
    may_override: bool = False


@dataclass(frozen=True, slots=True)
class StopOverridden:
    """Gone on all the same, for this reason."""

    step: str
    reason: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class StopLifted:
    """The ground of the stop is gone."""

    step: str


@dataclass(frozen=True, slots=True)
class FlowCounted:
    """Drops were counted, and the flow is not what was ordered."""

    drops: Fraction
    over_s: Fraction
    wanted_per_min: Fraction


@dataclass(frozen=True, slots=True)
class FindingReported:
    """Something reported that closes no step."""

    finding: str


@dataclass(frozen=True, slots=True)
class AttemptsUsedUp:
    """As many failed attempts as one person makes."""

    finding: str
    attempts: int


@dataclass(frozen=True, slots=True)
class BranchChosen:
    """The steps of other branches fall away."""

    branch: str


@dataclass(frozen=True, slots=True)
class PathShortened:
    """Only critical steps are asked from now on."""


@dataclass(frozen=True, slots=True)
class EmergencyRaised:
    """Words of an emergency were said."""

    emergency: str


@dataclass(frozen=True, slots=True)
class CueFired:
    """A timer reached its time. late_s: how long ago."""

    step: str
    say: str
    urgent: bool
    due: datetime
    late_s: int = 0


@dataclass(frozen=True, slots=True)
class ReasonAsked:
    """For what a reason is wanted: "skip" or "override"."""

    what: str


@dataclass(frozen=True, slots=True)
class ReasonDropped:
    """No reason was given."""


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


@dataclass(frozen=True, slots=True)
class Told:
    """A question of the user was answered. topic: repeat, how, why, where, left, help, nothing_to_undo, complete."""

    topic: str


@dataclass(frozen=True, slots=True)
class CommandRefused:
    """What was said makes no sense now. why: one sentence."""

    why: str


@dataclass(frozen=True, slots=True)
class Announced:
    """A sentence, before it is spoken."""

    text: str


@dataclass(frozen=True, slots=True)
class Played:
    """A sentence was spoken to its end."""

    text: str


@dataclass(frozen=True, slots=True)
class PlayingFailed:
    """A sentence could not be spoken."""

    text: str
    why: str


@dataclass(frozen=True, slots=True)
class Recorded:
    """An event and when it happened (UTC)."""

    at: datetime
    event: Event


Event = (
    SessionStarted | SessionResumed | SessionEnded | SpeechUnderstood | SpeechNotUnderstood | SpeechWavered
    | StepOpened | StepClosed | StepSkipped | StepLeftOpen | StepsReopened | AlreadyClosed
    | ValueProposed | ReadBack | ConfirmedOnce | ProposalConfirmed | ProposalDropped | RateComputed
    | StopRaised | StopOverridden | StopLifted | FlowCounted | FindingReported | AttemptsUsedUp | BranchChosen | PathShortened
    | EmergencyRaised | CueFired | ReasonAsked | ReasonDropped | Held | Released | ListeningPaused | ListeningResumed
    | EndAsked | EndDropped | Undone | Told | CommandRefused | Announced | Played | PlayingFailed
)  # fmt: skip

EVENTS: tuple[type, ...] = Event.__args__
"""Every class of event, for the codec and for tests that visit them all."""
