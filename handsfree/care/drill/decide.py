"""decide(session, command, at) -> events, for a drill. Pure: what happens follows from these alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from types import MappingProxyType
from typing import assert_never

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.commands import Close, Command, Mumble, Notice, Say, Tick, Waver
from handsfree.care.drill.evolution import evolve
from handsfree.care.drill.marks import Kind
from handsfree.care.drill.meant import likeliest, meant
from handsfree.care.drill.rules import OPEN, OWN_WORDS, Mode
from handsfree.care.drill.session import Session
from handsfree.care.manner import MANNERS
from handsfree.signals import REPORT


class _Decision:
    """Collects events; each later choice sees the drill after the earlier ones."""

    def __init__(self, session: Session, at: datetime) -> None:
        self.session, self.at = session, at
        self.events: list[e.Event] = []

    def add(self, event: e.Event) -> None:
        self.session = evolve(self.session, event, self.at)
        self.events.append(event)

    def mark(self, kind: Kind, said_at: datetime | None, step: str = "", words: str = "") -> None:
        """Set a mark; none stands before the go."""
        run = self.session.run
        assert run is not None
        at = max(run.began, said_at or self.at)
        self.add(e.MarkSet(self.session.said + 1, kind, at, step, words))


def decide(session: Session, command: Command, at: datetime) -> tuple[e.Event, ...]:
    """What happens because of a command; empty where nothing does."""
    decision = _Decision(session, at)
    if not session.over:
        match command:
            case Say():
                _said(decision, command)
            case Mumble(text, sound):
                _mumbled(decision, text, sound)
            case Waver(candidates):
                _wavered(decision, candidates)
            case Tick():
                _ticked(decision)
            case Notice(trouble, over):
                decision.add(e.SoundMended(trouble) if over else e.SoundTroubled(trouble))
            case Close():
                decision.add(e.SessionEnded("input ended"))
            case _:
                assert_never(command)
    return tuple(decision.events)


def begin(_session: Session, started: e.SessionStarted, _at: datetime) -> tuple[e.Event, ...]:
    """The first events of a drill."""
    return (started,)


def resume(session: Session, resumed: e.SessionResumed, at: datetime) -> tuple[e.Event, ...]:
    """The first events after it was cut off: a run goes on; words that were waited for did not come."""
    decision = _Decision(session, at)
    if session.mode is Mode.NOTING and session.last is not None:
        decision.add(e.WordsMissed(session.last.number))
    decision.add(resumed)
    return tuple(decision.events)


def _said(decision: _Decision, said: Say) -> None:
    emergency = decision.session.checklist.emergency(said.rule)
    decision.add(e.SpeechUnderstood(said.rule, said.text, said.confidence, changes=False))
    if emergency is not None:
        _emergency(decision, said)
    elif decision.session.mode not in OPEN.get(said.rule, ()):
        decision.add(e.CommandRefused(refusals.NO_SENSE))
    else:
        _COMMANDS[said.rule](decision, said)


def _mumbled(decision: _Decision, text: str, sound: str) -> None:
    """Words of a mark, or talk that is nobody's business: a drill never says “say again”."""
    last = decision.session.last
    if decision.session.mode is Mode.NOTING and last is not None:
        decision.add(e.WordsKept(last.number, text, sound))
    else:
        decision.add(e.SpeechNotUnderstood(text))


def _wavered(decision: _Decision, candidates: tuple[Say, ...]) -> None:
    """Where all mean the same marks, those are meant; where the same words name several steps, the likeliest.
    Else in doubt it is no."""
    reports = all(one.rule == REPORT for one in candidates)
    means = {tuple(meant(decision.session, answer) for answer in one.answers) for one in candidates}
    if reports and (len(means) == 1 or len({one.text for one in candidates}) == 1):
        _said(decision, likeliest(decision.session, candidates))
    elif any(one.rule == OWN_WORDS for one in candidates):
        decision.add(e.SpeechNotUnderstood(candidates[0].text))
    else:
        decision.add(e.SpeechWavered(tuple(one.text for one in candidates)))


def _ticked(decision: _Decision) -> None:
    due, last = decision.session.deadline(), decision.session.last
    if due is not None and due <= decision.at and last is not None:
        decision.add(e.WordsMissed(last.number))


def _emergency(decision: _Decision, said: Say) -> None:
    decision.add(e.EmergencyRaised(said.rule))
    if decision.session.mode is Mode.RUNNING:
        decision.mark(Kind.EMERGENCY, said.said_at, words=said.text)


def _report(decision: _Decision, said: Say) -> None:
    for answer in said.answers:
        step, verdict = meant(decision.session, answer)
        decision.mark(verdict, answer.said_at, step, answer.words)


def _sets(kind: Kind) -> Callable[[_Decision, Say], None]:
    return lambda decision, said: decision.mark(kind, said.said_at, words=said.text)


def _clock_start(decision: _Decision, said: Say) -> None:
    _clock(decision, said, Kind.CLOCK_STARTED, refusals.CLOCK_RUNS)


def _clock_stop(decision: _Decision, said: Say) -> None:
    _clock(decision, said, Kind.CLOCK_STOPPED, refusals.NO_CLOCK)


def _clock(decision: _Decision, said: Say, kind: Kind, why: str) -> None:
    """Of starts and stops each follows the other."""
    both = (Kind.CLOCK_STARTED, Kind.CLOCK_STOPPED)
    run = decision.session.run
    kinds = [mark.kind for mark in run.marks if mark.kind in both] if run else []
    if (kinds or [Kind.CLOCK_STOPPED])[-1] is kind:
        decision.add(e.MarkRefused(why))
    else:
        decision.mark(kind, said.said_at, words=said.text)


def _earlier(decision: _Decision, said: Say) -> None:
    """The last mark so many seconds earlier, not before the go."""
    run, last = decision.session.run, decision.session.last
    if run is None or last is None:
        decision.add(e.MarkRefused(refusals.NO_MARK))
    else:
        most_s = int((last.at - run.began).total_seconds())
        decision.add(e.MarkMoved(last.number, min(int(said.reason), most_s)))


def _scratch(decision: _Decision, _: Say) -> None:
    last = decision.session.last
    if last is None:
        decision.add(e.MarkRefused(refusals.NO_MARK))
    else:
        decision.add(e.MarkDropped(last.number))


def _next_trainee(decision: _Decision, said: Say) -> None:
    if decision.session.mode is Mode.RUNNING:
        _finish(decision, said)
    decision.add(e.TraineeNamed(said.reason))


def _finish(decision: _Decision, said: Say) -> None:
    decision.add(e.RunEnded(said.said_at or decision.at))


def _time_so_far(decision: _Decision, _: Say) -> None:
    run = decision.session.run
    assert run is not None
    decision.add(e.SoFarTold(int(((run.ended or decision.at) - run.began).total_seconds())))


def _end_it(decision: _Decision, said: Say) -> None:
    if decision.session.was is Mode.RUNNING:
        _finish(decision, said)
    decision.add(e.SessionEnded("by voice"))


def _just(event: Callable[[Say, datetime], e.Event]) -> Callable[[_Decision, Say], None]:
    return lambda decision, said: decision.add(event(said, said.said_at or decision.at))


def _tell(topic: str) -> Callable[[_Decision, Say], None]:
    return _just(lambda said, at: e.Told(topic))


_COMMANDS: Mapping[str, Callable[[_Decision, Say], None]] = MappingProxyType(
    {
        REPORT: _report,
        OWN_WORDS: lambda decision, said: None,
        "trainee": _just(lambda said, at: e.TraineeNamed(said.reason)),
        "drill_name": _just(lambda said, at: e.DrillNamed(said.reason)),
        "go": _just(lambda said, at: e.RunBegun(at)),
        "free_mark": _sets(Kind.FREE),
        "note": _sets(Kind.NOTE),
        "lap": _sets(Kind.LAP),
        "clock_start": _clock_start,
        "clock_stop": _clock_stop,
        "earlier": _earlier,
        "scratch": _scratch,
        "last_mark": _tell("last mark"),
        "time_so_far": _time_so_far,
        "by_words": _just(lambda said, at: e.ConfirmingChanged(by_words=True)),
        "by_sounds": _just(lambda said, at: e.ConfirmingChanged(by_words=False)),
        **MANNERS,
        "finish": _finish,
        "next_trainee": _next_trainee,
        "in_earnest": _tell("in earnest"),
        "stop": _just(lambda said, at: e.Held()),
        "repeat": _tell("repeat"),
        "choices": _tell("help"),
        "end": _just(lambda said, at: e.EndAsked()),
        "end_it": _end_it,
        "wrong": _just(lambda said, at: e.EndDropped()),
    }
)
"""What each command of the table of rules does."""
