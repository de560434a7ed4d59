"""Which step is meant by the words of a mark: several may be called alike."""

from __future__ import annotations

from handsfree.care.commands import Answer, Say
from handsfree.care.drill.marks import Kind
from handsfree.care.drill.session import Session

ALIKE = "like "
"""Before the name of a step in a value: it was named by words that close it, and may close others too."""


def meant(session: Session, answer: Answer) -> tuple[str, Kind]:
    """Step and verdict of a mark; the step is empty where the verdict stands alone.

    Of steps that are called alike it is the first without a mark in this run, else the last one.
    """
    named, _, verdict = answer.value.partition("/")
    alike = _alike(session, named)
    marked = _marked(session)
    return next((name for name in alike if name not in marked), alike[-1] if alike else ""), Kind(verdict)


def likeliest(session: Session, candidates: tuple[Say, ...]) -> Say:
    """Of sentences with the same words, whose steps differ: the first in order of the checklist that has no
    mark on a step already marked, else the first."""
    marked = _marked(session)
    names = [step.name for step in session.checklist.steps]

    def place(said: Say) -> tuple[bool, list[int]]:
        steps = [name for answer in said.answers if (name := meant(session, answer)[0])]
        return any(name in marked for name in steps), [names.index(name) for name in steps]

    return min(candidates, key=place)


def _alike(session: Session, named: str) -> tuple[str, ...]:
    """The steps that a value names, in order."""
    if not named.startswith(ALIKE):
        return (named,) if named else ()
    words = session.checklist.step(named.removeprefix(ALIKE)).words
    return tuple(step.name for step in session.checklist.steps if step.words == words)


def _marked(session: Session) -> set[str]:
    return {mark.step for mark in session.run.marks if mark.step} if session.run else set()
