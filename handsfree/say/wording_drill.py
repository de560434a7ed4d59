"""What is said in a drill, and which short sound is heard: nothing in a run tells a trainee a verdict."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.drill.marks import CODES, WITH_WORDS, Kind
from handsfree.care.drill.rules import Mode
from handsfree.care.drill.session import Mark, Run, Session
from handsfree.care.refusals import NO_MARK
from handsfree.say.quantities import counted, duration
from handsfree.say.wording import TROUBLES
from handsfree.say.wording_keys import called
from handsfree.say.wording_values import capital
from handsfree.signals import Chime, Keeps, Trouble
from handsfree.words import worded

Examples = Mapping[str, str]
"""By grammar rule: a sentence that can be said now."""

IN_EARNEST = worded("Stop the drill. Make it safe, and call for help. Follow local protocol.")
"""Where no emergency was named."""

_RECORDED = worded(
    "All that is said is recorded, on this machine alone, and kept with the record. "
    "It is erased with its session: handsfree sessions, erase."
)
_NOT_RECORDED = worded("No sound is kept. Of a note there is no more than its moment.")

_HELP = ("trainee", "go", "report", "note", "next_trainee", "repeat", "end", "end_it", "wrong")


def sentence(event: e.Event, session: Session, examples: Examples) -> str:
    """What is said because of an event, after it; empty where nothing is."""
    say = _SENTENCES.get(type(event))
    return say(event, session, examples) if say else ""


def chime(event: e.Event, session: Session) -> Chime | None:
    """The short sound because of an event."""
    match event:
        case e.MarkSet(kind=Kind.EMERGENCY):
            return Chime.DUE
        case e.MarkSet(kind=kind):
            return Chime.LISTENING if kind in WITH_WORDS else Chime.TAKEN
        case e.RunBegun() | e.MarkMoved() | e.MarkDropped() | e.WordsKept() | e.ConfirmingChanged():
            return Chime.TAKEN
        case e.MarkRefused() | e.WordsMissed() | e.SpeechWavered():
            return Chime.REFUSED
        case _:
            return None


def _started(event: e.SessionStarted, session: Session, _: Examples) -> str:
    parts = [worded("Drill. {title}.", title=session.checklist.title), *session.checklist.cautions]
    parts += [_RECORDED if session.keeps is Keeps.ALL else _NOT_RECORDED]
    return " ".join([*parts, worded("Say trainee and who it is, or go.")])


def _resumed(event: e.SessionResumed, session: Session, _: Examples) -> str:
    lost = [worded("A part of its record is damaged.")] if event.lost else []
    return " ".join([worded("Going on with the drill."), *lost, _waits(session)])


def _waits(session: Session) -> str:
    match session.mode:
        case Mode.RUNNING:
            return worded("The run goes on.")
        case Mode.AFTER:
            return worded("The run is over.")
        case _:
            return worded("Say go.")


def _trainee(event: e.TraineeNamed, session: Session, _: Examples) -> str:
    if not event.name:
        return worded("Next trainee. Say who it is, or go.")
    return worded("Trainee {name}. Say go.", name=_aloud(event.name, session))


def _aloud(name: str, session: Session) -> str:
    """A name of the list as it is; what was spelled, sign by sign."""
    return name if name in session.trainees else " ".join(name)


def _run_ended(event: e.RunEnded, session: Session, _: Examples) -> str:
    assert session.run is not None
    lasted_s = int((event.said_at - session.run.began).total_seconds())
    over = worded("The run is over.")
    return f"{over} {capital(duration(lasted_s))}, {_marks(len(session.run.marks))}."


def _marks(number: int) -> str:
    return counted(number, worded("mark"), worded("marks"))


def _mark_set(event: e.MarkSet, session: Session, _: Examples) -> str:
    mark, run = session.last, session.run
    return f"{mark_words(mark, run)}." if session.by_words and mark and run else ""


def mark_words(mark: Mark, run: Run) -> str:
    """A mark as it may be said while the trainee hears it: the step, and the code of its verdict."""
    if mark.kind is Kind.CLOCK_STOPPED:
        begun = [one.at for one in run.marks if one.kind is Kind.CLOCK_STARTED and one.at <= mark.at]
        since = [duration(int((mark.at - at).total_seconds())) for at in begun[-1:]]
        return ", ".join([worded("Clock"), *since])
    step = mark.step.replace("_", " ")
    return capital(", ".join(filter(None, (step, CODES.get(mark.kind) or called(mark.kind.value)))))


def _told(event: e.Told, session: Session, examples: Examples) -> str:
    match event.topic:
        case "last mark":
            return _last_mark(session)
        case "in earnest":
            raised = session.checklist.emergency(session.raised)
            return raised.tell if raised else IN_EARNEST
        case "help":
            said = [examples[rule] for rule in _HELP if rule in examples]
            return worded("You can say: {said}.", said=", ".join(said))
        case _:
            return ""


def _last_mark(session: Session) -> str:
    mark, run = session.last, session.run
    if mark is None or run is None:
        return NO_MARK
    after_s = int((mark.at - run.began).total_seconds())
    return worded("{mark}, at {time}.", mark=mark_words(mark, run), time=duration(after_s))


def _emergency(event: e.EmergencyRaised, session: Session, _: Examples) -> str:
    """In a run it may be a part of the drill, and an answer would be a prompt: "this is real" brings it."""
    emergency = session.checklist.emergency(event.emergency)
    return emergency.tell if emergency and session.mode not in (Mode.RUNNING, Mode.NOTING) else ""


def _ended(event: e.SessionEnded, session: Session, _: Examples) -> str:
    marks = sum(len(run.marks) for run in session.runs)
    runs = counted(len(session.runs), worded("run"), worded("runs"))
    return f"{worded('The drill is over.')} {capital(runs)}, {_marks(marks)}."


def _confirming(event: e.ConfirmingChanged, session: Session, _: Examples) -> str:
    return worded("Marks in words. Wear a headset: the trainee should not hear me.") if event.by_words else ""


def _says(text: str) -> Callable[[e.Event, Session, Examples], str]:
    return lambda event, session, examples: text


_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: _resumed,
        e.SessionEnded: _ended,
        e.TraineeNamed: _trainee,
        e.DrillNamed: lambda event, session, _: worded("Drill {name}.", name=_aloud(event.name, session)),
        e.RunEnded: _run_ended,
        e.MarkSet: _mark_set,
        e.MarkRefused: lambda event, session, _: event.why if session.by_words else "",
        e.SoFarTold: lambda event, session, _: f"{capital(duration(event.so_far_s))}.",
        e.ConfirmingChanged: _confirming,
        e.Told: _told,
        e.CommandRefused: lambda event, session, _: event.why,
        e.EmergencyRaised: _emergency,
        e.EndAsked: _says(worded("End the session? Say yes end it, or wrong.")),
        e.EndDropped: _says(worded("Going on.")),
        e.SoundTroubled: lambda event, session, _: TROUBLES[event.trouble],
        e.SoundMended: lambda event, session, _: (
            worded("The microphone is back.") if event.trouble is Trouble.DEAD else ""
        ),
    }
)
"""What each kind of event says; those not named here say nothing."""
