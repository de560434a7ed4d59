"""What holds of marks whatever is said in between, in which order, and however often the record is read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from itertools import combinations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from handsfree.care import events as e
from handsfree.care.commands import Close, Command, Mumble
from handsfree.care.practice.decide import decide
from handsfree.care.practice.listening import listen
from handsfree.care.practice.marking import mark
from handsfree.care.practice.marks import Marking
from handsfree.care.practice.session import Practice, evolve
from handsfree.care.practice.standards import standards
from handsfree.conducts.practice import PRACTICE
from handsfree.phrases.readings import reading
from handsfree.phrases.spotting import spotted
from handsfree.record import load
from handsfree.said import judged, spotted_answers, understood
from handsfree.shelf import emergencies
from handsfree.signals import REPORT, Alternative, Heard, Utterance
from handsfree.testing.dialogue import SESSION, START
from tests.care.practice.practised import cannulated, words
from tests.care.practice.runs import CHATTER, PERFECT, RUNS, Line, Run
from tests.care.practice.test_marking import ran
from tests.dialogues import shipped

QUICKLY = settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))


@cache
def command(said: str) -> Command:
    """What the corridor makes of a sentence in a run."""
    grammar = words().grammar(listen(Practice(shipped(), START)))
    utterance = Utterance((Alternative(tuple(said.split())),))
    outcome = judged(grammar, utterance)
    if isinstance(outcome, Heard) and outcome.command != REPORT:
        return understood(outcome, utterance, START)
    found = spotted(grammar, utterance, reading, words().common)
    return spotted_answers(found, utterance, START) if found else Mumble(said)


def finished(lines: Iterable[Line]) -> Practice:
    """The session of these lines, decided without ear and corridor, up to the end of the input.

    What is spotted carries no time of its own: a step is said when its sentence is decided on.
    """
    session, at = Practice(shipped(), START), START
    for one in (*lines, None):
        at += timedelta(seconds=one.after_s if one else 5)
        said = command(one.words) if one else Close("over")
        for event in decide(session, said, at):
            timed = replaced(event, at)
            session = evolve(session, timed, at)
    return session


def replaced(event: e.Event, at: datetime) -> e.Event:
    return replace(event, said_at=at) if isinstance(event, e.StepSaid) else event


def outcome(marking: Marking) -> tuple[object, ...]:
    """Marks without their moments."""
    return (
        [(one.step, one.verdict) for one in marking.steps],
        sorted((one.rule, one.step, one.critical, one.stands) for one in marking.failures),
    )


SPOKEN = tuple(dict.fromkeys(one for run in RUNS.values() for one in run.lines if one.words))
"""Every sentence of every run: steps right and wrong, findings, faults, cues, what is taken back."""

ANY_ORDER = st.lists(st.sampled_from(SPOKEN), max_size=30)
STEPS = st.lists(st.sampled_from(PERFECT), max_size=20)
TALK = st.lists(st.sampled_from(sorted(words().common)), max_size=8).map(" ".join)


def says_nothing(talk: str) -> bool:
    return not talk or isinstance(command(talk), Mumble)


@QUICKLY
@given(ANY_ORDER, st.lists(st.tuples(st.integers(0, 30), TALK | st.sampled_from(CHATTER)), max_size=12))
def test_other_talk_changes_no_mark(lines: list[Line], talk: list[tuple[int, str]]) -> None:
    """Whatever is said in whatever order, and whatever else between: the marks are those without it."""
    more = list(lines)
    for place, said in talk:
        if says_nothing(said):
            more.insert(place, Line(said, after_s=0))

    assert finished(lines).marking(START) == finished(more).marking(START)


@cache
def meanings(one: Line) -> frozenset[str]:
    """The steps that a sentence may be taken to say: words can belong to more than one."""
    rules = {rule for name in one.steps for rule in shipped().step(name).rules}
    return frozenset(step.name for step in shipped().steps if rules & set(step.rules))


def independent(one: Line, other: Line) -> bool:
    """Whether no rule, value or count joins what two sentences may say, and none is timed."""
    checklist, ours, theirs = shipped(), meanings(one), meanings(other)
    rules = [{rule.step, *rule.after} for rule in standards(checklist)]
    values = [{step.name, step.must_equal, step.must_avoid} for step in checklist.steps]
    counts = {step.name for step in checklist.steps if step.counted or step.attempt}
    timed = {name for rule in standards(checklist) for name in (*rule.begins, *rule.ends, *rule.never)}
    joined = any(ours & group and theirs & group for group in (*rules, *values, counts))
    return not (joined or ours & theirs or timed & (ours | theirs))


PAIRS = [pair for pair in combinations(PERFECT, 2) if independent(*pair)]


@QUICKLY
@given(STEPS, st.sampled_from(PAIRS), STEPS)
def test_the_order_of_what_is_independent_changes_no_mark(
    before: list[Line], pair: tuple[Line, Line], after: list[Line]
) -> None:
    """Two sentences whose steps nothing joins can be said in either order, whatever is said around them."""
    one, other = pair

    first, second = finished([*before, one, other, *after]), finished([*before, other, one, *after])
    assert outcome(first.marking(START)) == outcome(second.marking(START))


@QUICKLY
@given(ANY_ORDER)
def test_a_replay_gives_the_same_marks(lines: list[Line]) -> None:
    """The record of any run, read again, is the session that was, and gets the marks that it got."""
    talk = cannulated(*Run(tuple(lines)).script())
    kept = load(talk.journal, SESSION, emergencies())

    assert talk.session == kept.session
    again = mark(shipped(), kept.records, talk.session.ended, ended=True)
    assert talk.session.marking(START) == again


@QUICKLY
@given(st.sampled_from(sorted(RUNS)), st.integers(0, 400))
def test_cut_anywhere_and_folded_on(name: str, cut: int) -> None:
    """In how many pieces the events are folded does not matter."""
    kept = load(ran(name).journal, SESSION, emergencies())
    new = PRACTICE.new(shipped(), kept.started, START)
    folded = PRACTICE.fold(PRACTICE.fold(new, kept.records[:cut]), kept.records[cut:])

    assert kept.session == folded
