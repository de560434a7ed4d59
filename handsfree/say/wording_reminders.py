"""What is said of reminders, plainer each time; of the bag, and of what comes next. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.infusion.besides import BURETTE_CAUTION
from handsfree.care.nesting import beginnable
from handsfree.care.order import unusual
from handsfree.care.session import Session
from handsfree.say.calendar import clock_words
from handsfree.say.numbers import doubled, twice
from handsfree.say.quantities import duration, quantity
from handsfree.say.wording_left import gone_on, still_open
from handsfree.say.wording_places import aloud
from handsfree.say.wording_values import capital
from handsfree.words import worded

LATE_S = 60
"""A reminder that is said so much after it was due says how late it is."""


@dataclass(frozen=True, slots=True)
class Words:
    """name: what it is. act: what to do. answer: what to say then."""

    name: str
    act: str
    answer: str


_WORDS: Mapping[str, Words] = MappingProxyType(
    {
        "bag_empty": Words(
            worded("bag empty"),
            worded("Look at the bag, close the clamp or change it."),
            worded("bag changed"),
        ),
        "site": Words(
            worded("site check"),
            worded("Look, feel and ask: swelling, leak, cold, pale, numb, red, painful."),
            worded("site's fine, or what is wrong"),
        ),
        "bag_low": Words(
            worded("bag nearly empty"), worded("Fetch the next one."), worded("next bag is ready")
        ),
        "recount": Words(
            worded("count the drops"),
            worded("Do not move the clamp while you count."),
            worded("how many in sixty"),
        ),
        "emergency_line": Words(
            worded("emergency line"),
            worded("It went in without asepsis: ask who replaces it."),
            worded("emergency line judged"),
        ),
        "hang": Words(
            worded("bag hung long"),
            worded("Ask local protocol whether it is to be changed."),
            worded("bag changed"),
        ),
        "tubing": Words(worded("tubing"), worded("Its time is over: change it."), worded("tubing changed")),
        "tubing_may": Words(
            worded("tubing"),
            worded("From now on it may be changed; before, it need not."),
            worded("reminder done"),
        ),
        "catheter": Words(
            worded("catheter"),
            worded("Judge whether it is still needed, and well."),
            worded("catheter stays"),
        ),
    }
)


def reminder_words(kind: str, name: str) -> Words:
    """What a reminder is called, what is to be done, and what answers it. name: of the user's own."""
    return _WORDS.get(kind) or Words(name or worded("your timer"), "", worded("timer done"))


def _due(event: e.ReminderDue, session: Session, examples: Mapping[str, str]) -> str:
    """Once what to do; the second time since when; from the third time on a warning, with what to say."""
    words = reminder_words(event.kind, event.name)
    late = duration(event.late_s // 60 * 60) if event.late_s >= LATE_S else ""
    when = late and worded("{time} late.", time=capital(late))
    if event.kind == "bag_low":
        when = _bag_lasts(event, session)
    answer = worded("Say {answer}.", answer=words.answer)
    parts: tuple[str, ...]
    match event.times:
        case 1:
            parts = (f"{capital(words.name)}.", when, words.act)
        case 2:
            by_steps = _by_steps(event.kind, session, examples)
            parts = (worded("Again: {name}.", name=words.name), when, words.act, answer, by_steps)
        case _:
            put_off = worded("Or say: again in ten minutes.")
            warning = worded("Warning. {name}, not answered.", name=capital(words.name))
            parts = (warning, when, answer, put_off)
    return " ".join(part for part in parts if part)


def _by_steps(kind: str, session: Session, examples: Mapping[str, str]) -> str:
    """The checklist that answers a reminder is offered by its words, where it may begin now."""
    answering = [one.name for one in beginnable(session) if one.begin and kind in one.begin.answers]
    said = next((examples[name] for name in answering if name in examples), "")
    return said and worded("Or step by step: {said}.", said=said)


def _bag_lasts(event: e.ReminderDue, session: Session) -> str:
    """How long the bag lasts, when the reminder is said."""
    if session.bag is None:
        return ""
    left_s = int((session.bag.empty_at() - event.due).total_seconds()) - event.late_s
    return worded("Empty in {time}.", time=_about(left_s)) if left_s >= 60 else ""


def _about(seconds: int) -> str:
    """A length of time to the minute, never none."""
    minutes = max(1, round(seconds / 60))
    hours, rest = divmod(minutes, 60)
    parts = [quantity(count, unit, doubled) for count, unit in ((hours, "h"), (rest, "min")) if count]
    return " ".join(parts)


def _set(event: e.ReminderSet, session: Session, _: object) -> str:
    if not event.after_s:
        return ""
    name = reminder_words(event.kind, event.name).name
    kept = [worded("What it is for is kept as sound.")] if event.sound else []
    return " ".join([worded("In {time}: {name}.", time=_about(event.after_s), name=name), *kept])


def _answered(event: e.ReminderAnswered, session: Session, _: object) -> str:
    if event.how == "found":
        return ""
    name = reminder_words(event.kind, event.name).name
    if event.how == "not needed":
        return worded("Not needed: {name}.", name=name)
    return worded("Done: {name}.", name=name)


def _postponed(event: e.ReminderPostponed, session: Session, _: object) -> str:
    return worded("Later: {name}.", name=reminder_words(event.kind, event.name).name)


def _upcoming(event: e.UpcomingTold, session: Session, _: object) -> str:
    if not event.kind:
        return _no_reminder(session)
    return _when(event) if event.left_s <= -60 else worded("Next: {when}", when=_when(event))


def _no_reminder(session: Session) -> str:
    """Of several lines, of the one at hand: another may have one."""
    if session.others:
        return worded("No reminder is set for {line}.", line=session.name)
    return worded("No reminder is set.")


def _when(event: e.UpcomingTold) -> str:
    name = capital(reminder_words(event.kind, event.name).name)
    if event.left_s >= 60:
        return worded("{name} in {time}.", name=name, time=_about(event.left_s))
    if event.left_s > -60:
        return worded("{name} now.", name=name)
    return worded("{name} is due since {time}.", name=name, time=_about(-event.left_s))


def _level(event: e.LevelReported, session: Session, _: object) -> str:
    if not event.left_s:
        return worded("The bag is empty.")
    volume = capital(quantity(event.left_ml, "mL", twice))
    return worded("{volume} left. Empty in {time}.", volume=volume, time=_about(event.left_s))


def _bag(event: e.BagTold, session: Session, _: object) -> str:
    told = []
    if event.given_ml is not None:
        told.append(worded("About {volume} in.", volume=_whole_ml(event.given_ml)))
    if event.left_s:
        left, time = _whole_ml(event.left_ml), _about(event.left_s)
        told.append(worded("By the rate, about {volume} left. Empty in {time}.", volume=left, time=time))
    else:
        told.append(worded("By the rate, the bag is empty. Look at it."))
    return " ".join(told)


def _whole_ml(volume_ml: Fraction) -> str:
    return quantity(Fraction(round(volume_ml)), "mL", doubled)


MOST_TOLD = 5
"""So many reminders, or findings, are told in one breath; the record has them all."""


def _reminders(event: e.RemindersTold, session: Session, _: object) -> str:
    if not event.due:
        return _no_reminder(session)
    return " ".join(_when(one) for one in event.due[:MOST_TOLD])


def _problems(event: e.ProblemsTold, session: Session, _: object) -> str:
    told = [
        worded(
            "{finding} at {time}.",
            finding=capital(one.finding.replace("_", " ")),
            time=clock_words(session.local(one.at).time()),
        )
        for one in event.found[-MOST_TOLD:]
    ]
    passed = [gone_on(event.gone_on_at)] if event.gone_on_at else []
    still = [still_open(event.open_steps)] if event.open_steps else []
    return " ".join((*told, *passed, *still)) or worded("No problem was reported.")


def _hung(event: e.BagHung, session: Session, _: object) -> str:
    volume = quantity(event.volume_ml, "mL", twice)
    return worded("New bag, {volume}. Set the drops again, and count.", volume=volume)


def _case(event: e.CaseTold, session: Session, _: object) -> str:
    """What was taken; of a child, what to ask for, and what of the plan is unusual now."""
    noted = worded("Noted: {case}.", case=_CASES.get(event.case, event.case))
    if event.case != session.patient:
        return noted
    return " ".join((noted, BURETTE_CAUTION, *(aloud(one.reason) for one in unusual(session))))


REMINDER_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.ReminderSet: _set,
        e.ReminderDue: _due,
        e.ReminderAnswered: _answered,
        e.ReminderPostponed: _postponed,
        e.UpcomingTold: _upcoming,
        e.LevelReported: _level,
        e.BagTold: _bag,
        e.RemindersTold: _reminders,
        e.ProblemsTold: _problems,
        e.BagHung: _hung,
        e.TubingChanged: lambda event, session, _: worded("New tubing."),
        e.CaseTold: _case,
    }
)
"""What each kind of event about reminders says; those not named here say nothing."""

_CASES: Mapping[str, str] = MappingProxyType(
    {
        "watched": worded("to be watched closely"),
        "emergency": worded("emergency line"),
        "additive": worded("a drug was added"),
        "nutrition": worded("nutrition into the vein"),
        "intraosseous": worded("intraosseous line"),
    }
)
