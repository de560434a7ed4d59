"""The words of a drill on a checklist: its steps by their names, verdicts on them, trainees to be named."""

from __future__ import annotations

import re
from collections.abc import Iterator

from handsfree.care.checklist import Checklist, Step
from handsfree.care.drill.meant import ALIKE
from handsfree.care.drill.session import Session
from handsfree.care.vocabulary import Vocabulary

SHIPPED = ("drill", "letters", "always", "reasons")
"""The shipped grammars that a drill uses."""

_ON_STEPS = """\
<verdict_last> = <named> <verdict>;
<verdict_first> = <verdict> [on] <named>;
<verdict_alone> = [mark] <verdict>;
public <report> = (<verdict_last>+ | <verdict_first>+ | <verdict_alone>+)
    ((and | then) (<verdict_last>+ | <verdict_first>+ | <verdict_alone>+))*;
public <own_words> = <named>;
public <trainee> = [the] trainee [is | name is] <who>;
public <next_trainee> = next trainee [[is] <who>];"""
"""Several marks in one breath are all of one form, or have "and" between them: "missed, tourniquet, done"
could be two things, and is refused."""

_Owner = tuple[str, str]


def vocabulary(session: Session) -> Vocabulary:
    """What can be said of the steps and of the trainees, besides the words of every drill."""
    checklist = session.checklist
    head = ["#JSGF V1.0;", f"grammar {checklist.name};", *(f"import <{name}.*>;" for name in SHIPPED)]
    owned = [*_steps(checklist), *_emergencies(checklist), *_trainees(session.trainees)]
    fixed = [*_alternatives(checklist, session.trainees), *_ON_STEPS.splitlines()]
    lines = [*head, *(line for _, line in owned), *fixed]
    owners = (*((("", ""),) * len(head)), *(owner for owner, _ in owned), *((("", ""),) * len(fixed)))
    return Vocabulary(checklist, "\n".join([*lines, ""]), owners, SHIPPED)


def _steps(checklist: Checklist) -> Iterator[tuple[_Owner, str]]:
    begun = {step.wait.since for step in checklist.steps if step.wait}
    for step in checklist.steps:
        # "Scrubbing" begins a wait, and with "done" behind it is what a trainee says at the end of it.
        own = step.say if not (step.called and step.name in begun) else ""
        ways = [f"({' '.join(own.split())}) {{{ALIKE}{step.name}}}"] if own else []
        called = " ".join(step.called.split()) or ("" if step.words else _plain(step))
        ways += [f"[the] ({called}) {{{step.name}}}"] if called else []
        if ways:
            yield ("step", step.name), f"<named_{step.name}> = {' | '.join(ways)};"


def _plain(step: Step) -> str:
    """What a step is called that has no words of its own: its name."""
    return re.sub(r"[^a-z]+", " ", step.name).strip() or "step"


def _emergencies(checklist: Checklist) -> Iterator[tuple[_Owner, str]]:
    for one in checklist.emergencies:
        yield ("emergency", one.name), f"public <{one.name}> = {' '.join(one.say.split())};"


def _trainees(names: tuple[str, ...]) -> Iterator[tuple[_Owner, str]]:
    for number, name in enumerate(names):
        yield ("trainee", name), f"<listed_{number}> = {name.casefold().replace('-', ' ')} {{{name}}};"


def _alternatives(checklist: Checklist, names: tuple[str, ...]) -> Iterator[str]:
    steps = [f"<named_{step.name}>" for step in checklist.steps if step.called or not step.same_words_as]
    yield f"<named> = {' | '.join(steps)};"
    listed = [f"<listed_{number}>" for number in range(len(names))]
    yield f"<who> = {' | '.join([*listed, '<spelled>'])};"
