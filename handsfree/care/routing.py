"""For which of several lines a command is done; what could mean two is asked about. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.choices import answers_of
from handsfree.care.commands import Say
from handsfree.care.decision import Decision
from handsfree.care.listening import listen
from handsfree.care.nesting import askable, beginnable
from handsfree.care.reminders.planning import plan
from handsfree.care.reminders.reminder import KINDS
from handsfree.care.session import Session
from handsfree.signals import Listen

Do = Callable[[Decision, Say], None]
"""Does a command for the line at hand."""


def route(decision: Decision, said: Say, do: Do) -> None:
    """Do a command for the line that it names, or whose reminder it answers; ask where there are two."""
    session = decision.session
    picked = _picked(session, said)
    if picked is not None:
        decision.add(e.ChoiceMade())
        said = picked
    if not session.others or said.rule in LINES:
        do(decision, said)
        return
    meant = (said.line,) if said.line else _meant(session, said)
    if len(meant) > 1:
        decision.add(e.SpeechWavered((said.text,)))
        decision.add(e.ChoiceAsked(tuple(replace(said, line=name) for name in meant)))
    elif meant[0] == session.name:
        do(decision, said)
    elif meant[0] in [one.name for one in session.others]:
        _for_another(decision, meant[0], said, do)
    else:
        decision.add(e.CommandRefused(refusals.no_line(meant[0])))


def aside_tick(decision: Decision, tick: Callable[[Decision], None]) -> None:
    """Let time pass for the line at hand and for the others, the one with the most urgent reminder first."""
    home = decision.session.name
    for name in sorted(_due(decision), key=lambda one: (_urgency(decision, one), one != home)):
        if name == home:
            tick(decision)
        else:
            decision.add(e.LineAside(name))
            tick(decision)
            plan(decision)
            decision.add(e.LineResumed(home))


def _due(decision: Decision) -> Iterator[str]:
    """The line at hand, and those others of which something is due."""
    session = decision.session
    yield session.name
    for other in session.others:
        due = session.seen_from_here(other).own_deadline()
        if due is not None and due <= decision.at:
            yield other.name


def _urgency(decision: Decision, name: str) -> int:
    line = decision.session.line(name)
    return min((one.rank[0] for one in line.reminders if one.next <= decision.at), default=len(KINDS))


def _for_another(decision: Decision, name: str, said: Say, do: Do) -> None:
    """Do it for another line; that is at hand afterwards only where more is to be said about it."""
    home = decision.session
    if any(walk.sharp_open for walk in home.walks):
        decision.add(e.CommandRefused(refusals.NEEDLE_FIRST))
        return
    decision.add(e.LineAside(name))
    before = decision.session
    do(decision, said)
    plan(decision)
    after = decision.session
    asks = (after.mode, after.checklist.name, after.step) != (before.mode, before.checklist.name, before.step)
    decision.add(e.LineResumed(name if asks else home.name))


def _picked(session: Session, said: Say) -> Say | None:
    """What was said before, for the line that is named now: it was asked which."""
    candidates = session.choice.candidates if session.choice and said.rule == "line" else ()
    return next((one for one in candidates if one.line == said.reason), None)


def _meant(session: Session, said: Say) -> tuple[str, ...]:
    """The lines that a command may be about: the one at hand where it makes sense there, and each of which a
    reminder waits for it; where there is none, those that can take it."""
    if not _heard(listen(session), said):
        return (session.name,)
    lines = (session, *session.others)
    alone = {one.name: listen(replace(one, others=(), aside_of="")) for one in lines}
    waiting = [one.name for one in lines if _answers(one, said)]
    able = [one.name for one in lines if _heard(alone[one.name], said) and not _has_to_wait(one, said)]
    meant = [*([session.name] if session.name in able else []), *waiting]
    return tuple(dict.fromkeys(meant or able)) or (session.name,)


def _has_to_wait(line: Session, said: Say) -> bool:
    """Whether it is a checklist that may be asked for, and cannot begin yet."""
    return said.rule in {one.name for one in askable(line)} - {one.name for one in beginnable(line)}


def _heard(moment: Listen, said: Say) -> bool:
    """Whether it may be said at a moment."""
    rules = {one.rule for one in said.answers}
    return said.rule in moment.rules or (bool(rules) and rules <= set(moment.answers))


def _answers(line: Session, said: Say) -> bool:
    """Whether a reminder of the line waits for this."""
    clocks = _clocks(line, said)
    return any(
        KINDS[one.kind].clock in clocks or (said.rule in _ANY and said.reason in ("", one.kind))
        for one in line.latched()
    )


_ANY = ("reminded", "later", "not_needed")
"""What answers a reminder of whatever kind."""

_CLOCKS: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "bag_changed": frozenset({"bag"}),
        "level": frozenset({"bag"}),
        "tubing_changed": frozenset({"tubing"}),
    }
)


def _clocks(line: Session, said: Say) -> frozenset[str]:
    """The clocks that begin anew with what was said."""
    rules = {one.rule for one in answers_of(said)}
    steps = [step for step in line.own_checklist.steps if rules & set(step.rules)]
    finding = line.own_checklist.finding(said.rule)
    clocks = {clock for step in steps for clock in step.clocks} | set(finding.clocks if finding else ())
    return _CLOCKS.get(said.rule, frozenset()) | clocks


def _take(decision: Decision, said: Say) -> None:
    """Have another line at hand."""
    session = decision.session
    if any(walk.sharp_open for walk in session.walks):
        decision.add(e.CommandRefused(refusals.NEEDLE_FIRST))
    elif said.reason == session.name:
        decision.again()
    elif said.reason not in [one.name for one in session.others]:
        decision.add(e.CommandRefused(refusals.no_line(said.reason)))
    else:
        if session.proposal is not None:
            decision.add(e.ProposalDropped("misheard"))
        decision.add(e.LineTaken(said.reason))
        decision.ask_again()


def _name(decision: Decision, said: Say) -> None:
    """Give the line at hand its name."""
    if said.reason in [one.name for one in decision.session.others]:
        decision.add(e.CommandRefused(refusals.name_taken(said.reason)))
    else:
        decision.add(e.LineNamed(said.reason))


def _begin(decision: Decision, said: Say) -> None:
    """Begin with another line or patient."""
    session = decision.session
    if any(walk.sharp_open for walk in session.walks):
        decision.add(e.CommandRefused(refusals.NEEDLE_FIRST))
    elif not session.name:
        decision.add(e.CommandRefused(refusals.NO_NAME))
    elif said.reason in (session.name, *(one.name for one in session.others)):
        decision.add(e.CommandRefused(refusals.line_taken(said.reason)))
    else:
        decision.add(e.LineBegun(said.reason))
        decision.move_on()


LINES: Mapping[str, Do] = MappingProxyType({"line": _take, "line_named": _name, "line_begun": _begin})
"""What each command about lines does."""
