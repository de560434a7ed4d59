"""What is written on the board and in the terminal: the moment of a guided session, in few words. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from handsfree.care import events as e
from handsfree.care.infusion.counting import seconds_per_drop
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.glance import Glance, Running
from handsfree.say.quantities import unit_words
from handsfree.say.wording_choices import which
from handsfree.say.wording_places import filled
from handsfree.say.wording_reminders import reminder_words
from handsfree.say.wording_values import capital, value_words
from handsfree.words import worded

MOST_SENTENCES = 2
"""So many ways to answer are shown."""

MOST_CLOCKS = 4

_BETWEEN: Mapping[Mode, tuple[str, tuple[str, ...]]] = {
    Mode.HELD: (worded("Silent."), (worded("carry on"),)),
    Mode.ASLEEP: (worded("Not listening."), (worded("listen again"),)),
    Mode.REASONING: (worded("The reason?"), ()),
    Mode.ENDING: (worded("End the session?"), (worded("yes end it"), worded("wrong"))),
    Mode.OVER: (worded("Session ended."), ()),
}
"""What is shown in place of the step, and what can be said then."""


def glance(session: Session, examples: Mapping[str, str]) -> Glance:
    """The moment at hand. examples: by grammar rule, a sentence that can be said now."""
    do, say = _asked(session, examples)
    whose = f"{capital(session.name)}: " if session.name else ""
    return Glance(
        title=f"{whose}{session.checklist.title}",
        place=_place(session),
        do=do,
        say=say,
        alert=_alert(session),
        rate=tuple(_rate(session)),
        clocks=tuple(_clocks(session))[:MOST_CLOCKS],
        hears=session.mode not in (Mode.ASLEEP, Mode.OVER),
    )


def _asked(session: Session, examples: Mapping[str, str]) -> tuple[str, tuple[str, ...]]:
    """The question that is open, and what answers it."""
    if session.mode in _BETWEEN:
        return _BETWEEN[session.mode]
    if session.mode is Mode.CONFIRMING and session.proposal is not None:
        values = (value_words(kind, value, figures) for kind, value in session.proposal.values.values())
        do = worded("{values}. Correct?", values=capital(", ".join(values)))
        return do, (worded("correct"), worded("wrong"))
    if session.mode is Mode.CHOOSING and session.choice is not None:
        return which(session.choice.candidates), ()
    if not session.step:
        return worded("Every step is done."), (worded("end session"),)
    step = session.checklist.step(session.step)
    said = tuple(examples[rule] for rule in step.rules if rule in examples)
    return filled(step.do, session), said[:MOST_SENTENCES]


def _place(session: Session) -> str:
    """The phase, and how many of the steps that apply are done."""
    steps = [step for step in session.checklist.steps if session.applies(step)]
    done = len(steps) - len(session.open_steps())
    counted = worded("{done} of {number} done", done=done, number=len(steps))
    if not session.step:
        return counted
    phase = session.checklist.step(session.step).phase
    return f"{next(one.title for one in session.checklist.phases if one.name == phase)} · {counted}"


def _alert(session: Session) -> str:
    """What stops the step, else the most urgent reminder that waits for its answer."""
    if session.mode is Mode.STOPPED and session.stop is not None:
        return _stop(session.stop)
    if session.latched():
        words = reminder_words(session.latched()[0].kind, session.latched()[0].name)
        return f"{capital(words.name)}. {words.act}".strip()
    return ""


def _stop(stop: e.StopRaised) -> str:
    """What does not go together, both sides of it."""
    said = value_words(stop.kind, stop.value, figures)
    other = value_words(stop.other_kind, stop.other_value, figures) if stop.other_kind else ""
    return {
        "out_of_date": worded("Stop. Out of date: {said}.", said=said),
        "differs": worded("Stop. Ordered: {other}. Said: {said}.", other=other, said=said),
        "clash": worded("Stop. {said} does not go with: {other}.", said=capital(said), other=other),
        "attempts": worded("Stop. Said: {said}. Counted: {other}.", said=said, other=other),
        "disagrees": worded("Stop. Before: {other}. Now: {said}.", other=other, said=said),
    }[stop.ground]


def _rate(session: Session) -> Iterator[str]:
    if session.rate is None:
        return
    rate_per_min = session.rate.drop_rate_per_min
    yield POLICY.write(rate_per_min, "gtt/min").replace("gtt/min", unit_words("gtt/min"))
    yield worded("one drop every {time}", time=POLICY.write(seconds_per_drop(rate_per_min), "s"))


def _clocks(session: Session) -> Iterator[Running]:
    """Steps that are timed, then reminders, the soonest first."""
    soonest = {
        timer.step: timer for timer in sorted(session.timers, key=lambda timer: timer.due, reverse=True)
    }
    for timer in reversed(soonest.values()):
        closed_at = session.mark(timer.step).at
        name = session.checklist.step(timer.step).do.rstrip(".")
        if timer.cue and closed_at is not None:
            yield Running(name, closed_at, urgent=timer.urgent)
        elif not timer.cue:
            yield Running(worded("Wait"), timer.due, due=True)
    for reminder in sorted(session.reminders, key=lambda one: one.due):
        if not reminder.answered:
            name = capital(reminder_words(reminder.kind, reminder.name).name)
            yield Running(name, reminder.due, due=True)


def figures(number: int | Fraction) -> str:
    """A number as it is written: exact where it is a decimal, which all values are."""
    return f"{float(number):.10g}"
