"""What happened, as past participles: the record is made of these, and a session is the fold over them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from handsfree.care.events.course import (
    ChecklistBegun,
    ChecklistEnded,
    ChecklistText,
    ChoiceAsked,
    ChoiceDropped,
    ChoiceMade,
    EmergencyRaised,
    EndAsked,
    EndDropped,
    Held,
    ListeningPaused,
    ListeningResumed,
    ReasonAsked,
    ReasonDropped,
    Released,
    SessionEnded,
    SessionResumed,
    SessionStarted,
    Undone,
)
from handsfree.care.events.drill import (
    ConfirmingChanged,
    DrillNamed,
    MarkDropped,
    MarkMoved,
    MarkRefused,
    MarkSet,
    RunBegun,
    RunEnded,
    SoFarTold,
    TraineeNamed,
    WordsKept,
    WordsMissed,
)
from handsfree.care.events.flow_by_ear import (
    BeatSet,
    BeatStopped,
    CountBegun,
    CountDropped,
    CountEnded,
)
from handsfree.care.events.lines import LineAside, LineBegun, LineNamed, LineResumed, LineTaken
from handsfree.care.events.practice import (
    CueGiven,
    FaultSet,
    MissedTold,
    Overruled,
    RuleBroken,
    StepSaid,
    TimeTold,
)
from handsfree.care.events.questions import (
    AnswerUsed,
    FinishTold,
    Number,
    QuestionAnswered,
    QuestionDropped,
    QuestionLacking,
    QuestionRefused,
)
from handsfree.care.events.reminders import (
    BagHung,
    BagTold,
    CaseTold,
    Found,
    LevelReported,
    ProblemsTold,
    ReminderAnswered,
    ReminderDropped,
    ReminderDue,
    ReminderPostponed,
    ReminderSet,
    RemindersTold,
    TubingChanged,
    UpcomingTold,
)
from handsfree.care.events.sound import SoundMissed, SoundStarted, SoundStopped, SoundSynchronised
from handsfree.care.events.speech import (
    Announced,
    CommandRefused,
    MannerChanged,
    Played,
    PlayingFailed,
    SignGiven,
    SoundMended,
    SoundTroubled,
    SpeechNotUnderstood,
    SpeechUnderstood,
    SpeechWavered,
    Told,
)
from handsfree.care.events.steps import (
    AlreadyClosed,
    AttemptsUsedUp,
    BranchChosen,
    CueFired,
    FindingReported,
    PathShortened,
    ScoreTold,
    StepClosed,
    StepLeftOpen,
    StepOpened,
    StepSkipped,
    StepsReopened,
    StopLifted,
    StopOverridden,
    StopRaised,
)
from handsfree.care.events.values import (
    ConfirmedOnce,
    FlowCounted,
    ProposalConfirmed,
    ProposalDropped,
    RateComputed,
    ReadBack,
    ValueProposed,
)

Event = (
    SpeechUnderstood
    | SpeechNotUnderstood
    | SpeechWavered
    | Told
    | MannerChanged
    | CommandRefused
    | Announced
    | Played
    | PlayingFailed
    | SoundTroubled
    | SoundMended
    | SignGiven
    | SoundStarted
    | SoundSynchronised
    | SoundMissed
    | SoundStopped
    | StepOpened
    | StepClosed
    | StepSkipped
    | StepLeftOpen
    | StepsReopened
    | AlreadyClosed
    | FindingReported
    | AttemptsUsedUp
    | ScoreTold
    | BranchChosen
    | PathShortened
    | CueFired
    | StopRaised
    | StopOverridden
    | StopLifted
    | ValueProposed
    | ReadBack
    | ConfirmedOnce
    | ProposalConfirmed
    | ProposalDropped
    | RateComputed
    | FlowCounted
    | BeatSet
    | BeatStopped
    | CountBegun
    | CountEnded
    | CountDropped
    | SessionStarted
    | SessionResumed
    | SessionEnded
    | ChecklistBegun
    | ChecklistEnded
    | LineNamed
    | LineBegun
    | LineTaken
    | LineAside
    | LineResumed
    | EmergencyRaised
    | ReasonAsked
    | ReasonDropped
    | ChoiceAsked
    | ChoiceMade
    | ChoiceDropped
    | Held
    | Released
    | ListeningPaused
    | ListeningResumed
    | EndAsked
    | EndDropped
    | Undone
    | ReminderSet
    | ReminderDropped
    | ReminderDue
    | ReminderAnswered
    | ReminderPostponed
    | BagHung
    | LevelReported
    | TubingChanged
    | CaseTold
    | UpcomingTold
    | BagTold
    | RemindersTold
    | ProblemsTold
    | StepSaid
    | RuleBroken
    | CueGiven
    | MissedTold
    | TimeTold
    | FaultSet
    | Overruled
    | QuestionAnswered
    | QuestionLacking
    | QuestionRefused
    | QuestionDropped
    | AnswerUsed
    | FinishTold
    | DrillNamed
    | TraineeNamed
    | RunBegun
    | RunEnded
    | MarkSet
    | MarkMoved
    | MarkDropped
    | WordsKept
    | WordsMissed
    | ConfirmingChanged
    | MarkRefused
    | SoFarTold
)

EVENTS: tuple[type, ...] = Event.__args__
"""Every class of event, for the codec and for tests that visit them all."""


@dataclass(frozen=True, slots=True)
class Recorded:
    """An event and when it happened (UTC)."""

    at: datetime
    event: Event


__all__ = [
    "EVENTS", "AlreadyClosed", "Announced", "AnswerUsed", "AttemptsUsedUp", "BagHung", "BagTold", "BeatSet",
    "BeatStopped", "BranchChosen", "CaseTold", "ChecklistBegun", "ChecklistEnded", "ChecklistText",
    "ChoiceAsked", "ChoiceDropped", "ChoiceMade", "CommandRefused", "ConfirmedOnce", "ConfirmingChanged",
    "CountBegun", "CountDropped", "CountEnded", "CueFired", "CueGiven", "DrillNamed", "EmergencyRaised",
    "EndAsked", "EndDropped", "Event", "FaultSet", "FindingReported", "FinishTold", "FlowCounted", "Found",
    "Held", "LevelReported", "LineAside", "LineBegun", "LineNamed", "LineResumed", "LineTaken",
    "ListeningPaused", "ListeningResumed", "MannerChanged", "MarkDropped", "MarkMoved",
    "MarkRefused", "MarkSet", "MissedTold", "Number", "Overruled", "PathShortened", "Played",
    "PlayingFailed", "ProblemsTold", "ProposalConfirmed", "ProposalDropped", "QuestionAnswered",
    "QuestionDropped", "QuestionLacking", "QuestionRefused", "RateComputed", "ReadBack", "ReasonAsked",
    "ReasonDropped", "Recorded", "Released", "ReminderAnswered", "ReminderDropped", "ReminderDue",
    "ReminderPostponed", "ReminderSet", "RemindersTold", "RuleBroken", "RunBegun", "RunEnded", "ScoreTold",
    "SessionEnded", "SessionResumed", "SessionStarted", "SignGiven", "SoFarTold", "SoundMended",
    "SoundMissed", "SoundStarted", "SoundStopped", "SoundSynchronised", "SoundTroubled",
    "SpeechNotUnderstood", "SpeechUnderstood", "SpeechWavered", "StepClosed", "StepLeftOpen", "StepOpened",
    "StepSaid", "StepSkipped", "StepsReopened", "StopLifted", "StopOverridden", "StopRaised", "TimeTold",
    "Told", "TraineeNamed", "TubingChanged", "Undone", "UpcomingTold", "ValueProposed", "WordsKept",
    "WordsMissed",
]  # fmt: skip
