"""decide(session, command, at) -> events. Pure: what happens follows from these alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from fractions import Fraction
from types import MappingProxyType
from typing import assert_never

from handsfree.care import events as e
from handsfree.care.answers import report
from handsfree.care.choices import answers_of, chosen
from handsfree.care.closed import why_closed
from handsfree.care.commands import Close, Command, Mumble, Notice, Say, Tick, Waver
from handsfree.care.decision import Decision
from handsfree.care.flow_by_ear import FLOW_COMMANDS, tick_of_count
from handsfree.care.leaving import end_session, leave
from handsfree.care.manner import MANNERS
from handsfree.care.misses import drop_choice, missed, wavered
from handsfree.care.nesting import beginnable
from handsfree.care.proposals import confirm, drop
from handsfree.care.questions.replies import ASKED, drop_question, lapse_question
from handsfree.care.reasons import override, reasoned, skip
from handsfree.care.reminders.planning import plan, remind
from handsfree.care.reminders.replies import REPLIES
from handsfree.care.routing import LINES, aside_tick, route
from handsfree.care.rules import CHANGING, CHECKLISTS, OPEN, Mode
from handsfree.care.session import Session, State
from handsfree.care.walking import go_back, go_on, new_order, shorten


def decide(session: Session, command: Command, at: datetime) -> tuple[e.Event, ...]:
    """What happens because of a command; empty where nothing does."""
    decision = Decision(session, at)
    if session.mode is not Mode.OVER:
        match command:
            case Say():
                route(decision, command, _said)
            case Mumble():
                _mumbled(decision, command)
            case Waver(candidates):
                _wavered(decision, candidates)
            case Tick():
                aside_tick(decision, _ticked)
            case Notice(trouble, over):
                decision.add(e.SoundMended(trouble) if over else e.SoundTroubled(trouble))
            case Close():
                end_session(decision, "input ended")
            case _:
                assert_never(command)
        plan(decision)
    return tuple(decision.events)


def begin(session: Session, started: e.SessionStarted, at: datetime) -> tuple[e.Event, ...]:
    """The first events of a session."""
    decision = Decision(session, at).add(started)
    decision.move_on()
    return tuple(decision.events)


def resume(session: Session, resumed: e.SessionResumed, at: datetime) -> tuple[e.Event, ...]:
    """The first events after a session was cut off: what fell due meanwhile, then the step at hand."""
    decision = Decision(session, at).add(resumed)
    aside_tick(decision, _ticked)
    if decision.session.mode is Mode.CONFIRMING:
        drop(decision, "lapsed")
    elif decision.session.mode is Mode.WALKING:
        decision.move_on()
    plan(decision)
    return tuple(decision.events)


def _said(decision: Decision, said: Say) -> None:
    choice = decision.session.choice
    if choice is not None and said.rule in [one.rule for one in choice.candidates]:
        decision.add(e.ChoiceMade())
    answers = answers_of(said)
    finding = decision.session.checklist.finding(said.rule)
    other = said.rule in [one.name for one in beginnable(decision.session)]
    changes = said.rule in CHANGING or bool(answers) or finding is not None or other
    decision.add(e.SpeechUnderstood(said.rule, said.text, said.confidence, changes))
    if answers:
        report(decision, answers)
    elif finding is not None:
        _found(decision, said.rule)
    elif decision.session.checklist.emergency(said.rule) is not None:
        decision.add(e.EmergencyRaised(said.rule))
    elif decision.session.mode not in OPEN.get(CHECKLISTS if other else said.rule, ()):
        decision.add(e.CommandRefused(why_closed(decision.session, said.rule)))
    elif other:
        decision.add(e.ChecklistBegun(said.rule))
        decision.move_on()
    else:
        _COMMANDS[said.rule](decision, said)


def _mumbled(decision: Decision, mumble: Mumble) -> None:
    if decision.session.mode is Mode.REASONING:
        reasoned(decision, mumble.text, mumble.sound)
    else:
        missed(decision, mumble)


def _wavered(decision: Decision, candidates: tuple[Say, ...]) -> None:
    """In doubt it is no; of any other two, ask which."""
    no = next((said for said in candidates if said.rule == "wrong"), None)
    if no is not None:
        decision.add(e.SpeechWavered(tuple(said.text for said in candidates)))
        _said(decision, no)
    else:
        wavered(decision, candidates)


def _ticked(decision: Decision) -> None:
    for timer in sorted(decision.session.running(), key=lambda timer: timer.due):
        if timer.due <= decision.at:
            late_s = int((decision.at - timer.due).total_seconds())
            decision.add(e.CueFired(timer.step, timer.say, timer.urgent, timer.due, late_s))
    tick_of_count(decision)
    remind(decision)
    proposal = decision.session.proposal
    if proposal is not None and proposal.due <= decision.at:
        drop(decision, "lapsed")
    choice = decision.session.choice
    if choice is not None and choice.due <= decision.at:
        drop_choice(decision, "lapsed")
    lapse_question(decision)
    sign_due = decision.session.next_sign()
    if sign_due is not None and sign_due <= decision.at:
        decision.add(e.SignGiven())


def _found(decision: Decision, name: str) -> None:
    finding = decision.session.checklist.finding(name)
    assert finding is not None
    decision.add(e.FindingReported(name))
    if finding.branch:
        decision.add(e.BranchChosen(finding.branch))
    steps = tuple(n for n in finding.reopens if decision.session.mark(n).state is not State.OPEN)
    if steps:
        decision.add(e.StepsReopened(steps, name))
    if finding.attempts is not None and decision.session.failed >= finding.attempts.most:
        decision.add(e.AttemptsUsedUp(name, decision.session.failed))
    for step in finding.closes:
        decision.close(e.StepClosed(step, value=name))
    if finding.branch or finding.reopens or finding.closes:
        decision.move_on()


def _undo(decision: Decision, _: Say) -> None:
    if decision.session.before is None:
        decision.add(e.Told("nothing_to_undo"))
    else:
        decision.add(e.Undone())
        decision.move_on(again=True)


def _correct(decision: Decision, _: Say) -> None:
    confirm(decision)


def _wrong(decision: Decision, _: Say) -> None:
    match decision.session.mode:
        case Mode.CONFIRMING:
            drop(decision, "wrong")
        case Mode.CHOOSING:
            drop_choice(decision, "neither")
        case Mode.ASKING:
            drop_question(decision, "wrong")
        case Mode.REASONING:
            decision.add(e.ReasonDropped())
            decision.again()
        case _:
            decision.add(e.EndDropped())
            decision.again()


def _choose(decision: Decision, said: Say) -> None:
    """One of two candidates, by its place or by its number."""
    choice = decision.session.choice
    assert choice is not None
    match said.rule:
        case "first" | "second":
            one: Say | None = choice.candidates[said.rule == "second"]
        case _:
            one = chosen(choice.candidates, Fraction(said.reason))
    if one is None:
        missed(decision, Mumble(said.text))
    else:
        decision.add(e.ChoiceMade())
        route(decision, one, _said)


def _carry_on(decision: Decision, _: Say) -> None:
    decision.add(e.Released())
    decision.again()


def _listen(decision: Decision, _: Say) -> None:
    decision.add(e.ListeningResumed())
    decision.again()


def _just(event: Callable[[], e.Event]) -> Callable[[Decision, Say], None]:
    def command(decision: Decision, _: Say) -> None:
        decision.add(event())

    return command


def _tell(topic: str) -> Callable[[Decision, Say], None]:
    return _just(lambda: e.Told(topic))


_COMMANDS: Mapping[str, Callable[[Decision, Say], None]] = MappingProxyType(
    {
        "next": go_on,
        "back": go_back,
        "repeat": _tell("repeat"),
        "how": _tell("how"),
        "why": _tell("why"),
        "where": _tell("where"),
        "left": _tell("left"),
        "read_record": _tell("record"),
        "help": _tell("help"),
        "skip": skip,
        "override": override,
        "reason": lambda decision, said: reasoned(decision, said.reason or said.text, ""),
        "undo": _undo,
        "new_order": new_order,
        "correct": _correct,
        "wrong": _wrong,
        "first": _choose,
        "second": _choose,
        "chosen": _choose,
        "end": _just(e.EndAsked),
        "leave": leave,
        "end_it": lambda decision, _: end_session(decision, "by voice"),
        "stop": _just(e.Held),
        "carry_on": _carry_on,
        "pause": _just(e.ListeningPaused),
        "listen": _listen,
        "shorten": shorten,
        **LINES,
        **REPLIES,
        **ASKED,
        **FLOW_COMMANDS,
        **MANNERS,
    }
)
"""What each command of the table of rules does."""
