"""What is said in a practice run: little, and only what was asked for, chosen, or critical."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care.practice.marking import MISSED
from handsfree.care.practice.marks import Failure, Marking, Verdict
from handsfree.care.practice.plain import reason, to_do
from handsfree.care.practice.session import Practice
from handsfree.care.practice.standards import standards
from handsfree.care.practice.terms import Level, Telling
from handsfree.say.numbers import spoken
from handsfree.say.quantities import duration
from handsfree.say.wording import TROUBLES
from handsfree.say.wording_told import Examples
from handsfree.say.wording_values import capital

MOST_NAMED = 4
"""How many steps or errors are named in one breath."""


def practice_sentence(event: e.Event, session: Practice, examples: Examples) -> str:
    """What is said because of an event, after it; empty where nothing is."""
    del examples
    say = _SENTENCES.get(type(event))
    return say(event, session) if say else ""


def broken_rule(failure: Failure, session: Practice) -> str:
    """A failure in words: at which step, what lacked or was wrong, and why that matters."""
    return f"{what_failed(failure, session)} {failure.why}".strip()


def what_failed(failure: Failure, session: Practice) -> str:
    """One sentence without the reason."""
    at, because = named(failure.step), failure.because
    rule = next((one for one in standards(session.checklist) if one.name == failure.rule), None)
    if failure.rule == MISSED:
        return f"{capital(at)} was missed."
    if rule is not None and rule.step:
        return f"{capital(at)} before {named(because)}."
    if rule is not None:
        return _stretch(failure)
    if session.checklist.fault_to_meet(failure.rule) is not None:
        return f"Not met: {because}"
    if failure.rule.endswith("_then"):
        return f"{capital(at)} before {named(because)}."
    return f"{capital(at)}: {_WRONG[because]}."


def _stretch(failure: Failure) -> str:
    name = named(failure.rule)
    if failure.because == "not in between":
        return f"{capital(name)}: {named(failure.step)} came in between."
    return f"{capital(name)}: {failure.because}."


_WRONG: Mapping[str, str] = MappingProxyType(
    {
        "out_of_date": "it is out of date",
        "differs": "it is not the one that was ordered",
        "clash": "it was to be avoided",
        "attempts": "so many attempts were not counted",
        "disagrees": "what was read does not fit together",
    }
)


def named(step: str) -> str:
    """A step as it is called aloud."""
    return step.replace("_", " ")


def result(marking: Marking, session: Practice) -> str:
    """The run in three sentences: critical errors alone; steps; time and help."""
    done = marking.of(Verdict.DONE, Verdict.PROMPTED, Verdict.OUT_OF_ORDER)
    steps = f"{capital(spoken(len(done)))} of {spoken(len(marking.steps))} steps were done"
    others = (
        ("missed", Verdict.MISSED),
        ("out of order", Verdict.OUT_OF_ORDER),
        ("not seen", Verdict.NOT_SEEN),
    )
    lists = [f"{word}: {_names(one.step for one in marking.of(verdict))}" for word, verdict in others]
    told = "; ".join((steps, *(text for text in lists if not text.endswith(": "))))
    return f"{_critical(marking, session)} {told}. {_time(marking, session)}"


def _critical(marking: Marking, session: Practice) -> str:
    errors = [one for one in marking.critical if one.rule != MISSED]
    left_out = [one for one in marking.critical if one.rule == MISSED]
    what = dict.fromkeys(what_failed(one, session).rstrip(".").lower() for one in errors)
    told = [f"{_counted(len(errors), 'critical error')}: {_listed(what)}"] if errors else []
    if left_out:
        names = _names(one.step for one in left_out)
        told.append(f"{_counted(len(left_out), 'critical step')} not done: {names}")
    return f"{capital('; '.join(told) or 'no critical error')}."


def _counted(number: int, what: str) -> str:
    return f"{spoken(number)} {what}{'' if number == 1 else 's'}"


def _time(marking: Marking, session: Practice) -> str:
    ended = session.ended or session.started
    cues = len(marking.cues)
    help_ = "no cue" if not cues else "one cue" if cues == 1 else f"{spoken(cues)} cues"
    return f"{capital(duration(int((ended - session.started).total_seconds())))}, with {help_}."


def _names(steps: Iterable[str]) -> str:
    return _listed(map(named, steps))


def _listed(names: Iterable[str]) -> str:
    every = list(names)
    more = f", and {spoken(len(every) - MOST_NAMED)} more" if len(every) > MOST_NAMED else ""
    return ", ".join(every[:MOST_NAMED]) + more


def _started(event: e.SessionStarted, session: Practice) -> str:
    level = session.terms.level
    help_ = {
        Level.GUIDED: "I say each step.",
        Level.PROMPTED: "I give a cue where you wait.",
        Level.SILENT: "I am silent. Say cue for help.",
    }[level]
    return " ".join((f"Practice: {session.checklist.title}.", *session.checklist.cautions, help_))


def _cue(event: e.CueGiven, session: Practice) -> str:
    step = session.checklist.step(event.step)
    phase = next(one.title for one in session.checklist.phases if one.name == step.phase)
    nudge = step.nudge or f"Look at: {phase}. Something is open there."
    what = to_do(step.do)
    return {1: nudge, 2: what}.get(event.rung, f"{what} {reason(step.why)}".strip())


def _missed(event: e.MissedTold, session: Practice) -> str:
    return f"Missed so far: {_names(event.steps)}." if event.steps else "Nothing was missed so far."


def _broken(event: e.RuleBroken, session: Practice) -> str:
    if session.terms.telling is Telling.AT_THE_END or session.over:
        return ""
    failures = session.marking(event.at).failures
    key = (event.rule, event.step, event.at)
    failure = next((one for one in failures if (one.rule, one.step, one.at) == key), None)
    return f"Critical. {broken_rule(failure, session)}" if failure else ""


def _fault(event: e.FaultSet, session: Practice) -> str:
    fault = session.checklist.fault_to_meet(event.fault)
    return fault.tell if fault is not None and event.drawn else ""


def _told(event: e.Told, session: Practice) -> str:
    match event.topic:
        case "where":
            return _where(session)
        case "complete":
            return "Every step was said. Say end session to finish."
        case "nothing_to_undo":
            return "There is nothing to take back."
        case _:
            return ""


def _where(session: Practice) -> str:
    sheet = session.sheet()
    phases = [phase.name for phase in session.checklist.phases]
    last = sheet.sayings[-1].step if sheet.sayings else session.checklist.steps[0].name
    place = phases.index(session.checklist.step(last).phase)
    title = session.checklist.phases[place].title
    applying = sum(map(sheet.applies, session.checklist.steps))
    return (
        f"{title}, part {spoken(place + 1)} of {spoken(len(phases))}. {_so_many(len(sheet.done), applying)}"
    )


def _so_many(done: int, of: int) -> str:
    return f"{capital(spoken(done))} of {spoken(of)} steps were said."


def _opened(event: e.StepOpened, session: Practice) -> str:
    return to_do(session.checklist.step(event.step).do) if event.step else "Say end session to finish."


def _ended(event: e.SessionEnded, session: Practice) -> str:
    return result(session.marking(session.ended or session.started), session)


def _emergency(event: e.EmergencyRaised, session: Practice) -> str:
    emergency = session.checklist.emergency(event.emergency)
    return emergency.tell if emergency is not None else ""


def _says(text: str) -> Callable[[e.Event, Practice], str]:
    return lambda event, session: text


_SENTENCES: Mapping[type, Callable[..., str]] = MappingProxyType(
    {
        e.SessionStarted: _started,
        e.SessionResumed: lambda event, session: f"Going on with practice: {session.checklist.title}.",
        e.SessionEnded: _ended,
        e.StepOpened: _opened,
        e.CueGiven: _cue,
        e.MissedTold: _missed,
        e.TimeTold: lambda event, session: f"{capital(duration(event.passed_s))}.",
        e.RuleBroken: _broken,
        e.FaultSet: _fault,
        e.EmergencyRaised: _emergency,
        e.EndAsked: _says("End the practice? Say yes end it, or wrong."),
        e.EndDropped: _says("Going on."),
        e.Undone: _says("Taken back."),
        e.Told: _told,
        e.CommandRefused: lambda event, session: event.why,
        e.SoundTroubled: lambda event, session: TROUBLES[event.trouble],
    }
)
"""What each kind of event says; those not named here say nothing."""
