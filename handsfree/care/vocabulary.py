"""The words of a checklist as one JSGF grammar, each rule on a line of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from handsfree.care.checklist import Checklist

SHIPPED = (
    "always",
    "reasons",
    "quantities",
    "dates",
    "fluids",
    "patient",
    "lines",
    "questions",
    "measures",
    "numbers",
)
"""The shipped grammars that a checklist may use, as `<name>`."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """text: JSGF, the words of a checklist. shipped: names of the grammars beside it that may be used.

    owners: for each line (from 1) the kind and name of the table whose words stand there.
    others: those of the checklists that may begin over it.
    """

    checklist: Checklist
    text: str
    owners: tuple[tuple[str, str], ...]
    shipped: tuple[str, ...] = SHIPPED
    others: tuple[Vocabulary, ...] = ()

    @property
    def every(self) -> tuple[Vocabulary, ...]:
        """Its own words, and those of the others."""
        return self, *self.others


def vocabulary(checklist: Checklist) -> Vocabulary:
    """What the steps, findings and emergencies of a checklist add to the shipped grammars; and the words by
    which it begins over another."""
    begin = [Words("begin", "", checklist.begin.say)] if checklist.begin else []
    steps = [Words("step", step.name, step.say) for step in checklist.steps if step.say]
    findings = [Words("finding", one.name, one.say) for one in checklist.findings]
    words = written(checklist, [*begin, *steps, *findings, *emergencies(checklist)], SHIPPED)
    return replace(words, others=tuple(map(vocabulary, checklist.others)))


@dataclass(frozen=True, slots=True)
class Words:
    """One rule: the kind and name of the table that its words stand in, and the words as JSGF.

    A rule without a name is called as its checklist.
    """

    kind: str
    name: str
    say: str


def emergencies(checklist: Checklist) -> list[Words]:
    """The words of its emergencies."""
    return [Words("emergency", one.name, one.say) for one in checklist.emergencies]


def written(checklist: Checklist, rules: Sequence[Words], shipped: tuple[str, ...]) -> Vocabulary:
    """The rules as one grammar beside the shipped ones."""
    head = ["#JSGF V1.0;", f"grammar {checklist.name};", *(f"import <{name}.*>;" for name in shipped)]
    lines = [f"public <{one.name or checklist.name}> = {' '.join(one.say.split())};" for one in rules]
    owners = (*((("", ""),) * len(head)), *((one.kind, one.name) for one in rules))
    return Vocabulary(checklist, "\n".join([*head, *lines, ""]), owners, shipped)
