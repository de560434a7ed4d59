"""What holds of marks whatever is said in between, in which order, and however often the record is read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from itertools import pairwise

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
from handsfree.said import spotted_answers
from handsfree.shelf import emergencies
from handsfree.signals import Alternative, Utterance
from handsfree.testing.dialogue import SESSION, START
from tests.care.practice.practised import words
from tests.care.practice.runs import CHATTER, PERFECT, RUNS, Line
from tests.care.practice.test_marking import ran
from tests.dialogues import shipped

QUICKLY = settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))


@cache
def command(said: str) -> Command:
    """What the corridor makes of a sentence in a run."""
    grammar = words().grammar(listen(Practice(shipped(), START)))
    utterance = Utterance((Alternative(tuple(said.split())),))
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


def independent(one: Line, other: Line) -> bool:
    """Whether no rule, word or value joins the steps of two lines."""
    checklist = shipped()
    for first in one.steps:
        for second in other.steps:
            a, b = checklist.step(first), checklist.step(second)
            joined = {first, second}
            if any(joined <= {r.step, *r.after, *r.begins, *r.ends, *r.never} for r in standards(checklist)):
                return False
            if set(a.rules) & set(b.rules) or second in (a.must_equal, a.must_avoid):
                return False
            if first in (b.must_equal, b.must_avoid):
                return False
    timed = {name for rule in standards(checklist) for name in (*rule.begins, *rule.ends)}
    return not timed & {*one.steps, *other.steps}


SWAPS = [n for n, (one, other) in enumerate(pairwise(PERFECT)) if independent(one, other)]


@QUICKLY
@given(st.lists(st.tuples(st.integers(0, len(PERFECT)), st.sampled_from(CHATTER)), max_size=12))
def test_other_talk_changes_no_mark(talk: list[tuple[int, str]]) -> None:
    """Whatever else is said between the sentences of a run, its marks are the same."""
    lines = list(PERFECT)
    for place, said in sorted(talk, reverse=True):
        lines.insert(place, Line(said, after_s=0))

    assert outcome(finished(PERFECT).marking(START)) == outcome(finished(lines).marking(START))


@QUICKLY
@given(st.lists(st.sampled_from(SWAPS), max_size=10))
def test_the_order_of_what_is_independent_changes_no_mark(swaps: list[int]) -> None:
    """Neighbouring sentences whose steps nothing joins can be said in either order."""
    lines = list(PERFECT)
    for place in swaps:
        if independent(lines[place], lines[place + 1]):
            lines[place], lines[place + 1] = lines[place + 1], lines[place]

    assert outcome(finished(PERFECT).marking(START)) == outcome(finished(lines).marking(START))


def test_a_replay_gives_the_same_marks() -> None:
    """The record of every run, read again, is the session that was, and gets the marks that it got."""
    for name in RUNS:
        live = ran(name).session
        kept = load(ran(name).journal, SESSION, emergencies())
        assert live == kept.session
        again = mark(live.checklist, kept.records, live.ended, ended=True)
        assert live.marking(START) == again


@QUICKLY
@given(st.sampled_from(sorted(RUNS)), st.integers(0, 400))
def test_cut_anywhere_and_folded_on(name: str, cut: int) -> None:
    """In how many pieces the events are folded does not matter."""
    kept = load(ran(name).journal, SESSION, emergencies())
    new = PRACTICE.new(shipped(), kept.started, START)
    folded = PRACTICE.fold(PRACTICE.fold(new, kept.records[:cut]), kept.records[cut:])

    assert kept.session == folded
