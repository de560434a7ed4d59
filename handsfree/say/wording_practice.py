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
from handsfree.say.quantities import counted, duration
from handsfree.say.wording import TROUBLES
from handsfree.say.wording_keys import called
from handsfree.say.wording_left import first_of
from handsfree.say.wording_told import Examples
from handsfree.say.wording_values import capital
from handsfree.words import worded

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
        return worded("{step} was missed.", step=capital(at))
    if rule is not None and rule.step:
        return worded("{step} before {because}.", step=capital(at), because=named(because))
    if rule is not None:
        return _stretch(failure)
    if session.checklist.fault_to_meet(failure.rule) is not None:
        return worded("Not met: {answer}", answer=because)
    if failure.rule.endswith("_then"):
        return worded("{step} before {because}.", step=capital(at), because=named(because))
    return f"{capital(at)}: {_WRONG[because]}."


def _stretch(failure: Failure) -> str:
    name = named(failure.rule)
    if failure.because == "not in between":
        return worded("{name}: {step} came in between.", name=capital(name), step=named(failure.step))
    return f"{capital(name)}: {called(failure.because)}."


_WRONG: Mapping[str, str] = MappingProxyType(
    {
        "out_of_date": worded("it is out of date"),
        "differs": worded("it is not the one that was ordered"),
        "clash": worded("it was to be avoided"),
        "attempts": worded("so many attempts were not counted"),
        "disagrees": worded("what was read does not fit together"),
    }
)


def named(step: str) -> str:
    """A step as it is called aloud."""
    return step.replace("_", " ")


def result(marking: Marking, session: Practice) -> str:
    """The run in three sentences: critical errors alone; steps; time and help."""
    done = marking.of(Verdict.DONE, Verdict.PROMPTED, Verdict.OUT_OF_ORDER)
    number, of = capital(spoken(len(done))), spoken(len(marking.steps))
    steps = worded("{number} of {of} steps were done", number=number, of=of)
    others = (
        (worded("missed"), Verdict.MISSED),
        (worded("out of order"), Verdict.OUT_OF_ORDER),
        (worded("not seen"), Verdict.NOT_SEEN),
    )
    lists = [f"{word}: {_names(one.step for one in marking.of(verdict))}" for word, verdict in others]
    told = "; ".join((steps, *(text for text in lists if not text.endswith(": "))))
    return f"{_critical(marking, session)} {told}. {_time(marking, session)}"


def _critical(marking: Marking, session: Practice) -> str:
    errors = [one for one in marking.critical if one.rule != MISSED]
    left_out = [one for one in marking.critical if one.rule == MISSED]
    what = dict.fromkeys(what_failed(one, session).rstrip(".").lower() for one in errors)
    told = []
    if errors:
        number = counted(len(errors), worded("critical error"), worded("critical errors"))
        told.append(f"{number}: {_listed(what)}")
    if left_out:
        number = counted(len(left_out), worded("critical step not done"), worded("critical steps not done"))
        told.append(f"{number}: {_names(one.step for one in left_out)}")
    return f"{capital('; '.join(told) or worded('no critical error'))}."


def _time(marking: Marking, session: Practice) -> str:
    lasted_s = int(((session.ended or session.started) - session.started).total_seconds())
    cues = len(marking.cues)
    help_ = counted(cues, worded("cue"), worded("cues")) if cues else worded("no cue")
    return worded("{time}, with {help}.", time=capital(duration(lasted_s)), help=help_)


def _names(steps: Iterable[str]) -> str:
    return _listed(map(named, steps))


def _listed(names: Iterable[str]) -> str:
    return first_of(list(names), MOST_NAMED)


def _started(event: e.SessionStarted, session: Practice) -> str:
    level = session.terms.level
    help_ = {
        Level.GUIDED: worded("I say each step."),
        Level.PROMPTED: worded("I give a cue where you wait."),
        Level.SILENT: worded("I am silent. Say cue for help."),
    }[level]
    title = worded("Practice: {title}.", title=session.checklist.title)
    return " ".join((title, *session.checklist.cautions, help_))


def _cue(event: e.CueGiven, session: Practice) -> str:
    step = session.checklist.step(event.step)
    phase = next(one.title for one in session.checklist.phases if one.name == step.phase)
    nudge = step.nudge or worded("Look at: {phase}. Something is open there.", phase=phase)
    what = to_do(step.do)
    return {1: nudge, 2: what}.get(event.rung, f"{what} {reason(step.why)}".strip())


def _missed(event: e.MissedTold, session: Practice) -> str:
    if not event.steps:
        return worded("Nothing was missed so far.")
    return worded("Missed so far: {steps}.", steps=_names(event.steps))


def _broken(event: e.RuleBroken, session: Practice) -> str:
    if session.terms.telling is Telling.AT_THE_END or session.over:
        return ""
    failures = session.marking(event.at).failures
    key = (event.rule, event.step, event.at)
    failure = next((one for one in failures if (one.rule, one.step, one.at) == key), None)
    return worded("Critical. {wrong}", wrong=broken_rule(failure, session)) if failure else ""


def _fault(event: e.FaultSet, session: Practice) -> str:
    fault = session.checklist.fault_to_meet(event.fault)
    return fault.tell if fault is not None and event.drawn else ""


def _told(event: e.Told, session: Practice) -> str:
    match event.topic:
        case "where":
            return _where(session)
        case "complete":
            return worded("Every step was said. Say end session to finish.")
        case "nothing_to_undo":
            return worded("There is nothing to take back.")
        case _:
            return ""


def _where(session: Practice) -> str:
    sheet = session.sheet()
    phases = [phase.name for phase in session.checklist.phases]
    last = sheet.sayings[-1].step if sheet.sayings else session.checklist.steps[0].name
    place = phases.index(session.checklist.step(last).phase)
    title = session.checklist.phases[place].title
    applying = sum(map(sheet.applies, session.checklist.steps))
    number, of = spoken(place + 1), spoken(len(phases))
    part = worded("{title}, part {number} of {of}.", title=title, number=number, of=of)
    return f"{part} {_so_many(len(sheet.done), applying)}"


def _so_many(done: int, of: int) -> str:
    return worded("{number} of {of} steps were said.", number=capital(spoken(done)), of=spoken(of))


def _opened(event: e.StepOpened, session: Practice) -> str:
    if not event.step:
        return worded("Say end session to finish.")
    return to_do(session.checklist.step(event.step).do)


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
        e.SessionResumed: lambda event, session: worded(
            "Going on with practice: {title}.", title=session.checklist.title
        ),
        e.SessionEnded: _ended,
        e.StepOpened: _opened,
        e.CueGiven: _cue,
        e.MissedTold: _missed,
        e.TimeTold: lambda event, session: f"{capital(duration(event.passed_s))}.",
        e.RuleBroken: _broken,
        e.FaultSet: _fault,
        e.EmergencyRaised: _emergency,
        e.EndAsked: _says(worded("End the practice? Say yes end it, or wrong.")),
        e.EndDropped: _says(worded("Going on.")),
        e.Undone: _says(worded("Taken back.")),
        e.Told: _told,
        e.CommandRefused: lambda event, session: event.why,
        e.SoundTroubled: lambda event, session: TROUBLES[event.trouble],
    }
)
"""What each kind of event says; those not named here say nothing."""
