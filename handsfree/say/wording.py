"""From events to sentences: short, units in full, numbers two ways where they could be misheard. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.misses import MISSES_BEFORE_CHOICES
from handsfree.care.rules import Mode
from handsfree.care.session import Session, State
from handsfree.say.numbers import twice
from handsfree.say.quantities import duration
from handsfree.say.wording_choices import which
from handsfree.say.wording_flow import FLOW_SENTENCES
from handsfree.say.wording_left import left, still_open
from handsfree.say.wording_places import aloud, filled, rate_sentence
from handsfree.say.wording_questions import QUESTION_SENTENCES
from handsfree.say.wording_record import spoken_record
from handsfree.say.wording_reminders import REMINDER_SENTENCES
from handsfree.say.wording_told import Examples, told
from handsfree.say.wording_values import capital, value_words
from handsfree.signals import Trouble
from handsfree.words import worded


def sentence(event: e.Event, session: Session, examples: Examples) -> str:
    """What is said because of an event, after it; empty where nothing is.

    While a sharp is open, or silence is kept, only answers, emergencies and urgent cues are spoken; while
    listening is paused, every cue.
    """
    if _keeps_quiet(event, session):
        return ""
    say = _SENTENCES.get(type(event))
    text = say(event, session, examples) if say else ""
    whose = session.others and not session.aside_of and isinstance(event, e.ReminderDue | e.CueFired)
    return f"{capital(session.name)}: {text}" if text and whose else text


def _keeps_quiet(event: e.Event, session: Session) -> bool:
    """Whether an event that has words is not to be heard of now."""
    if isinstance(event, _ALWAYS_SAID):
        return False
    if event == e.SoundTroubled(Trouble.DEAD):
        return False
    if isinstance(event, e.CueFired):
        return not event.urgent and (session.sharp_open or session.mode is Mode.HELD)
    return session.sharp_open or session.mode in (Mode.HELD, Mode.ASLEEP)


_ALWAYS_SAID = (
    e.EmergencyRaised,
    e.FindingReported,
    e.AttemptsUsedUp,
    e.CommandRefused,
    e.Told,
    e.ListeningPaused,
    e.SessionEnded,
    e.SessionResumed,
    e.StopRaised,
    e.ReadBack,
    e.ChoiceAsked,
    e.EndAsked,
    e.ReasonAsked,
    e.ReminderDue,
    e.LineAside,
)


def _started(event: e.SessionStarted, session: Session, _: Examples) -> str:
    less = [worded("This ear hears less well: every value is read back.")] if event.reads_back else []
    return " ".join([session.checklist.title + ".", *session.checklist.cautions, *less])


def _resumed(event: e.SessionResumed, session: Session, _: Examples) -> str:
    whose = f"{session.name}, " if session.name else ""
    parts = [worded("Going on with {what}.", what=f"{whose}{session.checklist.title}")]
    if event.set_back_s:
        parts.append(worded("The clock was set back: check when reminders are due."))
    if event.lost:
        parts.append(worded("Parts of the record are lost: check what was done, and every number."))
    return " ".join(parts)


def _ended(event: e.ChecklistEnded, session: Session, _: Examples) -> str:
    checklist = session.own_checklist.other(event.checklist)
    title = checklist.title if checklist else event.checklist
    still = f" {still_open(event.open_steps)}" if event.open_steps else ""
    how = worded("done") if event.how == "done" else worded("left")
    return f"{capital(title)}: {how}.{still}"


def _score(event: e.ScoreTold, session: Session, _: Examples) -> str:
    row = next(one for one in session.checklist.scores if one.score == event.score)
    if not event.beyond:
        return row.tell
    signs = capital(worded(" and ").join(map(_plain, event.beyond)))
    higher = worded("{signs} goes beyond that: judge by the higher score.", signs=signs)
    return f"{row.tell} {higher}"


def _opened(event: e.StepOpened, session: Session, _: Examples) -> str:
    if not event.step:
        return f"{left(session)} {worded('Say end session to finish.')}"
    step = session.checklist.step(event.step)
    mark = session.mark(step.name)
    if mark.state is State.CLOSED:
        back = worded("Back at: {step}", step=filled(step.do, session))
        done = worded("It is done.")
        if mark.kind:
            done = worded("It is done, {value}.", value=value_words(mark.kind, mark.value))
        return f"{back} {done} {worded('Say it again to change it, or next.')}"
    return filled(step.do, session)


def _session_ended(event: e.SessionEnded, session: Session, _: Examples) -> str:
    """The record of each line is read at the end that was asked for; who was cut off goes on with it."""
    read = spoken_record if event.how == "by voice" else left
    lines = (session, *session.others)
    each = [f"{capital(line.name)}: {read(line.walks[-1])}" for line in lines if session.others]
    return " ".join((worded("Session ended."), *(each or (read(session),))))


def _closed(event: e.StepClosed, session: Session, _: Examples) -> str:
    """What was understood, so that the user hears it; a confirmed value was read back already."""
    if event.confirmed:
        return ""
    words = value_words(event.kind, event.value) if event.kind else event.words
    return f"{capital(words)}." if words else ""


def _read_back(event: e.ReadBack, session: Session, _: Examples) -> str:
    values = session.proposal.values.values() if session.proposal else ()
    words = ", ".join(value_words(kind, value, twice) for kind, value in values)
    return worded("{values}. Correct?", values=capital(words))


def _confirmed_once(event: e.ConfirmedOnce, session: Session, _: Examples) -> str:
    unusual = session.proposal.unusual if session.proposal else ()
    why = aloud(" ".join(unusual))
    return worded("That is unusual. {why} If it is meant, say correct once more.", why=why)


def _dropped(event: e.ProposalDropped, session: Session, _: Examples) -> str:
    match event.why:
        case "wrong":
            return worded("Taken back.")
        case "lapsed" | "misheard":
            return worded("Not confirmed. Nothing was changed.")
        case "new order":
            return ""
        case why:
            return aloud(why)


def _computed(event: e.RateComputed, session: Session, _: Examples) -> str:
    return worded("The drip rate is: {rate}", rate=rate_sentence(event))


def _stopped(event: e.StopRaised, session: Session, _: Examples) -> str:
    said = value_words(event.kind, event.value)
    other = value_words(event.other_kind, event.other_value) if event.other_kind else ""
    step = session.checklist.step(event.step)
    return {
        "out_of_date": worded(
            "Stop. Out of date: {said}. Do not use it. Take another and read its date.", said=said
        ),
        "differs": worded(
            "Stop. The order says {other}. You said {said}. Get the right one, or say new order.",
            other=other,
            said=said,
        ),
        "clash": worded(
            "Stop. {said} does not go with: {other}. Choose another.", said=capital(said), other=other
        ),
        "attempts": worded(
            "Stop. You said {said}, I counted {other}. Say it again, or go on anyway with a reason.",
            said=said,
            other=other,
        ),
        "disagrees": worded(
            "Stop. Before it was {other}, now {said}. Which one? {step}", other=other, said=said, step=step.do
        ),
    }[event.ground]


def _refused(event: e.CommandRefused, session: Session, _: Examples) -> str:
    return aloud(filled(event.why, session))


def _cue(event: e.CueFired, session: Session, _: Examples) -> str:
    late = worded("{time} late.", time=capital(duration(event.late_s))) if event.late_s >= 5 else ""
    return f"{event.say} {late}".rstrip()


def _not_understood(event: e.SpeechNotUnderstood, session: Session, _: Examples) -> str:
    if session.misses == MISSES_BEFORE_CHOICES and event.drowned:
        return worded("It is loud here. Bring the microphone closer to your mouth.")
    if session.misses != 1:
        return ""
    match session.mode:
        case Mode.CONFIRMING:
            return worded("Say correct, or wrong.")
        case Mode.WALKING | Mode.STOPPED | Mode.CHOOSING | Mode.ASKING:
            return worded("Say again?")
        case _:
            return ""


TROUBLES: Mapping[Trouble, str] = MappingProxyType(
    {
        Trouble.DEAD: worded("I hear nothing at all. See that the microphone is on, and not muted."),
        Trouble.FAINT: worded("I hear you too quietly. Bring the microphone closer, or speak up."),
        Trouble.CLIPPED: worded("The sound is too loud. Move the microphone away, or turn it down."),
        Trouble.LOST: worded("I am losing parts of the sound. Close other programs."),
        Trouble.UNWRITTEN: worded(
            "The sound can no longer be kept; all else is. Free some space on the disk."
        ),
    }
)
"""What is wrong with the sound, and the next step."""


def _plain(name: str) -> str:
    return name.replace("_", " ")


def _says(text: str) -> Callable[[e.Event, Session, Examples], str]:
    return lambda event, session, examples: text


_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: _resumed,
        e.SessionEnded: _session_ended,
        e.ChecklistBegun: lambda event, session, _: f"{capital(session.checklist.title)}.",
        e.ChecklistEnded: _ended,
        e.StepOpened: _opened,
        e.StepClosed: _closed,
        e.StepSkipped: lambda event, session, _: worded("Left out: {step}.", step=_plain(event.step)),
        e.StepLeftOpen: lambda event, session, _: worded(
            "Left open: {step}. Say it any time.", step=_plain(event.step)
        ),
        e.StopOverridden: _says(worded("Gone on, with your reason in the record.")),
        e.AlreadyClosed: _says(worded("Done already.")),
        e.ReadBack: _read_back,
        e.ConfirmedOnce: _confirmed_once,
        e.ProposalConfirmed: _says(worded("Taken.")),
        e.ProposalDropped: _dropped,
        e.RateComputed: _computed,
        e.StopRaised: _stopped,
        e.FindingReported: lambda event, session, _: session.checklist.finding(event.finding).tell,
        e.ScoreTold: _score,
        e.AttemptsUsedUp: lambda event, session, _: session.checklist.finding(event.finding).attempts.say,
        e.PathShortened: _says(worded("Critical steps only. The rest stays open in the record.")),
        e.LineNamed: lambda event, session, _: f"{capital(event.name)}.",
        e.LineBegun: lambda event, session, _: f"{capital(event.name)}.",
        e.LineTaken: lambda event, session, _: f"{capital(event.name)}.",
        e.LineAside: lambda event, session, _: f"{capital(event.name)}:",
        e.EmergencyRaised: lambda event, session, _: session.checklist.emergency(event.emergency).tell,
        e.CueFired: _cue,
        e.ReasonAsked: _says(worded("Why? Say the reason, or wrong to go back.")),
        e.ReasonDropped: _says(""),
        e.ListeningPaused: _says(worded("Not listening. Say listen again.")),
        e.ListeningResumed: _says(worded("Listening.")),
        e.Released: _says(worded("Going on.")),
        e.EndAsked: _says(worded("End the session? Say yes end it, or wrong.")),
        e.EndDropped: _says(worded("Going on.")),
        e.Undone: _says(worded("Taken back.")),
        e.Told: told,
        e.CommandRefused: _refused,
        e.SoundTroubled: lambda event, session, _: TROUBLES[event.trouble],
        e.SoundMended: lambda event, session, _: (
            worded("The microphone is back.") if event.trouble is Trouble.DEAD else ""
        ),
        e.SoundStarted: _says(
            worded("All sound is being kept, on this machine, until its session is erased.")
        ),
        e.SignGiven: _says(worded("I am listening.")),
        e.SpeechNotUnderstood: _not_understood,
        e.ChoiceAsked: lambda event, session, _: which(event.candidates),
        e.ChoiceDropped: _says(""),
        **REMINDER_SENTENCES,
        **QUESTION_SENTENCES,
        **FLOW_SENTENCES,
    }
)
"""What each kind of event says; those not named here say nothing."""
