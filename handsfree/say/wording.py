"""From events to sentences: short, units in full, numbers two ways where they could be misheard. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.checklist import Step
from handsfree.care.infusion.counting import drops_in, seconds_per_drop, whole_drops
from handsfree.care.infusion.rounding import POLICY, Rounded
from handsfree.care.rules import Mode
from handsfree.care.session import Session, State
from handsfree.say.calendar import clock_words, day_words, month_words
from handsfree.say.numbers import doubled, spoken, twice
from handsfree.say.quantities import duration, quantity

Examples = Mapping[str, str]
"""By grammar rule: a sentence that can be said now."""

MOST_CHOICES = 6
"""How many things to say are offered in one breath."""


def value_words(kind: str, value: str, say: Callable[[int | Fraction], str] = doubled) -> str:
    """A value as it is spoken: "1000" of volume is "one thousand millilitres"."""
    words = _VALUES.get(kind)
    return words(value, say) if words else value


def _gauge(value: str, say: Callable[[int | Fraction], str]) -> str:
    return f"{' or '.join(say(int(one)) for one in value.split('/'))} gauge"


def _expiry(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    year, month, *day = (int(part) for part in value.split("-"))
    return day_words(date(year, month, day[0])) if day else month_words(year, month)


def _count(value: str, say: Callable[[int | Fraction], str]) -> str:
    drops, over_s = value.split("/")
    return f"{say(int(drops))} drops in {spoken(int(over_s))} seconds"


def _fluid(value: str, say: Callable[[int | Fraction], str]) -> str:
    del say
    return " ".join(
        spoken(Fraction(word)) if word[0].isdigit() else "percent" if word == "%" else word
        for word in value.split()
    )


def _minutes(value: str, say: Callable[[int | Fraction], str]) -> str:
    minutes = Fraction(value)
    if minutes % 60 == 0:
        return f"over {quantity(minutes / 60, 'h', say)}"
    return f"over {duration(int(minutes * 60))}"


def _in(unit: str) -> Callable[[str, Callable[[int | Fraction], str]], str]:
    return lambda value, say: quantity(Fraction(value), unit, say)


_VALUES: Mapping[str, Callable[[str, Callable[[int | Fraction], str]], str]] = MappingProxyType(
    {
        "volume": _in("mL"),
        "rate": lambda value, say: f"at {quantity(Fraction(value), 'mL/h', say)}",
        "drop_factor": _in("gtt/mL"),
        "infusion_time": _minutes,
        "fluid": _fluid,
        "bag_fluid": _fluid,
        "gauge": _gauge,
        "expiry": _expiry,
        "count": _count,
        "identity": lambda value, say: "tag taken" if value.startswith("tag") else value,
        "allergies": lambda value, say: (
            "no allergies" if value == "none" else f"allergic to {value.replace(',', ' and')}"
        ),
        "limb": lambda value, say: "no arm to avoid" if value == "none" else f"avoid the {value}",
        "attempts": lambda value, say: f"{spoken(int(value))} attempt{'' if value == '1' else 's'}",
    }
)


def sentence(event: e.Event, session: Session, examples: Examples) -> str:
    """What is said because of an event, after it; empty where nothing is.

    While a sharp is open, or silence is kept, only answers, emergencies and urgent cues are spoken.
    """
    quiet = session.sharp_open or session.mode in (Mode.HELD, Mode.ASLEEP)
    if quiet and not isinstance(event, _ALWAYS_SAID) and not (isinstance(event, e.CueFired) and event.urgent):
        return ""
    say = _SENTENCES.get(type(event))
    return say(event, session, examples) if say else ""


_ALWAYS_SAID = (
    e.EmergencyRaised, e.FindingReported, e.AttemptsUsedUp, e.CommandRefused, e.Told, e.ListeningPaused, e.SessionEnded,
    e.SessionResumed, e.StopRaised, e.ReadBack, e.EndAsked, e.ReasonAsked,
)  # fmt: skip


def _started(event: e.SessionStarted, session: Session, _: Examples) -> str:
    less = " This ear hears less well: every value is read back." if event.reads_back else ""
    return " ".join([session.checklist.title + ".", *session.checklist.cautions]) + less


def _resumed(event: e.SessionResumed, session: Session, _: Examples) -> str:
    return f"Going on with {session.checklist.title}."


def _opened(event: e.StepOpened, session: Session, _: Examples) -> str:
    if not event.step:
        return f"{_left(session)} Say end session to finish."
    step = session.checklist.step(event.step)
    mark = session.mark(step.name)
    if mark.state is State.CLOSED:
        value = f", {value_words(mark.kind, mark.value)}" if mark.kind else ""
        return f"Back at: {_filled(step.do, session)} It is done{value}. Say it again to change it, or next."
    return _filled(step.do, session)


def _closed(event: e.StepClosed, session: Session, _: Examples) -> str:
    """What was understood, so that the user hears it; a confirmed value was read back already."""
    if event.confirmed:
        return ""
    words = value_words(event.kind, event.value) if event.kind else event.words
    return f"{_capital(words)}." if words else ""


def _read_back(event: e.ReadBack, session: Session, _: Examples) -> str:
    values = session.proposal.values.values() if session.proposal else ()
    return f"{_capital(', '.join(value_words(kind, value, twice) for kind, value in values))}. Correct?"


def _confirmed_once(event: e.ConfirmedOnce, session: Session, _: Examples) -> str:
    unusual = session.proposal.unusual if session.proposal else ()
    return f"That is unusual. {aloud(' '.join(unusual))} If it is meant, say correct once more."


def _dropped(event: e.ProposalDropped, session: Session, _: Examples) -> str:
    return {
        "wrong": "Taken back.",
        "lapsed": "Not confirmed. Nothing was changed.",
        "misheard": "Not confirmed. Nothing was changed.",
        "new order": "",
    }.get(event.why, aloud(event.why))


def rate_sentence(rate: e.RateComputed, say: Callable[[int | Fraction], str] = twice) -> str:
    """The drip rate, the seconds between drops and the 15 s count."""
    return (
        f"{_capital(_drop_rate(rate, say))}. One drop every {_seconds_per_drop(rate)}."
        f" {_capital(_count_15(rate))} in fifteen seconds."
    )


def _computed(event: e.RateComputed, session: Session, _: Examples) -> str:
    return f"The drip rate is: {rate_sentence(event)}"


def _drop_rate(rate: e.RateComputed, say: Callable[[int | Fraction], str] = twice) -> str:
    rounded = POLICY.round(rate.drop_rate_per_min, "gtt/min")
    if isinstance(rounded, Rounded):
        return quantity(rounded.value, "gtt/min", say)
    return "less than one drop a minute"


def _seconds_per_drop(rate: e.RateComputed) -> str:
    rounded = POLICY.round(seconds_per_drop(rate.drop_rate_per_min), "s")
    return quantity(rounded.value, "s") if isinstance(rounded, Rounded) else "moment"


def _count_15(rate: e.RateComputed) -> str:
    low, high = whole_drops(drops_in(Fraction(15), rate.drop_rate_per_min))
    return f"{spoken(low)} drops" if low == high else f"{spoken(low)} or {spoken(high)} drops"


def _stopped(event: e.StopRaised, session: Session, _: Examples) -> str:
    said = value_words(event.kind, event.value)
    other = value_words(event.other_kind, event.other_value) if event.other_kind else ""
    step = session.checklist.step(event.step)
    return {
        "out_of_date": f"Stop. Out of date: {said}. Do not use it. Take another and read its date.",
        "differs": f"Stop. The order says {other}. You said {said}. Get the right one, or say new order.",
        "clash": f"Stop. {_capital(said)} does not go with: {other}. Choose another.",
        "attempts": f"Stop. You said {said}, I counted {other}. Say it again, or go on anyway with a reason.",
        "disagrees": f"Stop. Before it was {other}, now {said}. Which one? {step.do}",
    }[event.ground]


def _flow(event: e.FlowCounted, session: Session, _: Examples) -> str:
    counted = event.drops * 60 / event.over_s
    rounded = POLICY.round(counted, "gtt/min")
    so_many = quantity(rounded.value, "gtt/min") if isinstance(rounded, Rounded) else "almost nothing"
    wanted = _drop_rate(session.rate) if session.rate else ""
    turn = (
        "Too fast: close the clamp a little"
        if counted > event.wanted_per_min
        else "Too slow: open the clamp a little"
    )
    return f"That is {so_many}. Wanted: {wanted}. {turn}, and count again."


def _refused(event: e.CommandRefused, session: Session, _: Examples) -> str:
    return aloud(_filled(event.why, session))


def _cue(event: e.CueFired, session: Session, _: Examples) -> str:
    return f"{event.say}{f' {_capital(duration(event.late_s))} late.' if event.late_s >= 5 else ''}"


def _not_understood(event: e.SpeechNotUnderstood, session: Session, _: Examples) -> str:
    return (
        "Say again?"
        if session.misses == 1 and session.mode in (Mode.WALKING, Mode.CONFIRMING, Mode.STOPPED)
        else ""
    )


def _wavered(event: e.SpeechWavered, session: Session, _: Examples) -> str:
    return f"Did you say {', or '.join(event.candidates[:2])}?"


def _told(event: e.Told, session: Session, examples: Examples) -> str:
    step = session.checklist.step(session.step) if session.step else None
    match event.topic:
        case "how":
            return _filled((step.how or step.do) if step else "All steps are done.", session)
        case "why":
            return _filled(
                (step.why or "No reason is given in this checklist.") if step else "All steps are done.",
                session,
            )
        case "where":
            return _where(step, session)
        case "left" | "complete":
            return _left(session)
        case "help" | "choices":
            return _help(session, examples)
        case "nothing_to_undo":
            return "There is nothing to take back."
        case _:
            return ""


def _where(step: Step | None, session: Session) -> str:
    if step is None:
        return "All steps are done."
    phases = [phase.name for phase in session.checklist.phases]
    title = next(phase.title for phase in session.checklist.phases if phase.name == step.phase)
    number = f"{spoken(phases.index(step.phase) + 1)} of {spoken(len(phases))}"
    return f"Phase {number}, {title}. {_filled(step.do, session)}"


def _left(session: Session) -> str:
    """What is not closed, by name; at most six."""
    left = session.left_open()
    if not left:
        return "Every step is done."
    names = ", ".join(step.name.replace("_", " ") for step in left[:MOST_CHOICES])
    more = f", and {spoken(len(left) - MOST_CHOICES)} more" if len(left) > MOST_CHOICES else ""
    return f"Still open: {names}{more}."


def _help(session: Session, examples: Examples) -> str:
    step = session.checklist.step(session.step) if session.step else None
    first = [*(step.rules if step and session.mode in (Mode.WALKING, Mode.STOPPED) else ())]
    usual = (
        "correct",
        "wrong",
        "reason",
        "end_it",
        "carry_on",
        "next",
        "back",
        "how",
        "repeat",
        "left",
        "stop",
        "end",
    )
    said = [examples[rule] for rule in (*first, *usual) if rule in examples]
    return f"You can say: {', '.join(dict.fromkeys(said[:MOST_CHOICES]))}."


def _filled(text: str, session: Session) -> str:
    """A text of the checklist with its {step} and {drop_rate} places filled."""
    if "{" not in text:
        return text
    at = session.local(max((mark.at for mark in session.marks.values() if mark.at), default=session.started))
    places = {name: value_words(mark.kind, mark.value) for name, mark in session.marks.items() if mark.kind}
    places |= {"date": day_words(at.date()), "time": clock_words(at.time())}
    if session.rate:
        speed = next((places[n] for n in ("order_speed",) if n in places), "")
        places |= {
            "drop_rate": _drop_rate(session.rate),
            "seconds_per_drop": _seconds_per_drop(session.rate),
            "count_15": _count_15(session.rate),
            "volume": quantity(session.rate.volume_ml, "mL"),
            "speed": speed,
        }
    return text.format_map(_Places(places))


class _Places(dict[str, str]):
    """A place without a value is said as open."""

    def __missing__(self, key: str) -> str:
        return f"{key.replace('_', ' ')} open"


_ALOUD = (
    (" mL/h", " millilitres an hour"),
    (" gtt/min", " drops a minute"),
    (" gtt/mL", " drops a millilitre"),
    (" mL", " millilitres"),
    (" min", " minutes"),
)


def aloud(text: str) -> str:
    """Units as they are spoken, in a sentence that was written."""
    for unit, words in _ALOUD:
        for end in (" ", ".", ",", ":"):
            text = text.replace(unit + end, words + end)
    return text


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _says(text: str) -> Callable[[e.Event, Session, Examples], str]:
    return lambda event, session, examples: text


_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: _resumed,
        e.SessionEnded: lambda event, session, _: f"Session ended. {_left(session)}",
        e.StepOpened: _opened,
        e.StepClosed: _closed,
        e.StepSkipped: lambda event, session, _: f"Left out: {event.step.replace('_', ' ')}.",
        e.StepLeftOpen: lambda event, session, _: (
            f"Left open: {event.step.replace('_', ' ')}. Say it any time."
        ),
        e.StopOverridden: _says("Gone on, with your reason in the record."),
        e.AlreadyClosed: _says("Done already."),
        e.ReadBack: _read_back,
        e.ConfirmedOnce: _confirmed_once,
        e.ProposalConfirmed: _says("Taken."),
        e.ProposalDropped: _dropped,
        e.RateComputed: _computed,
        e.StopRaised: _stopped,
        e.FlowCounted: _flow,
        e.FindingReported: lambda event, session, _: session.checklist.finding(event.finding).tell,
        e.AttemptsUsedUp: lambda event, session, _: session.checklist.finding(event.finding).attempts.say,
        e.PathShortened: _says("Critical steps only. The rest stays open in the record."),
        e.EmergencyRaised: lambda event, session, _: session.checklist.emergency(event.emergency).tell,
        e.CueFired: _cue,
        e.ReasonAsked: _says("Why? Say the reason, or wrong to go back."),
        e.ReasonDropped: _says(""),
        e.ListeningPaused: _says("Not listening. Say listen again."),
        e.ListeningResumed: _says("Listening."),
        e.Released: _says("Going on."),
        e.EndAsked: _says("End the session? Say yes end it, or wrong."),
        e.EndDropped: _says("Going on."),
        e.Undone: _says("Taken back."),
        e.Told: _told,
        e.CommandRefused: _refused,
        e.SpeechNotUnderstood: _not_understood,
        e.SpeechWavered: _wavered,
    }
)
"""What each kind of event says; those not named here say nothing."""
