"""The words of a checklist as one JSGF grammar, each rule on a line of its own."""

from __future__ import annotations

from dataclasses import dataclass

from handsfree.care.checklist import Checklist

SHIPPED = ("always", "reasons", "quantities", "dates", "fluids", "patient", "numbers")
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
    head = ["#JSGF V1.0;", f"grammar {checklist.name};", *(f"import <{name}.*>;" for name in SHIPPED)]
    begin = [("begin", "", checklist.begin.say)] if checklist.begin else []
    rules = [
        *begin,
        *(("step", step.name, step.say) for step in checklist.steps if step.say),
        *(("finding", one.name, one.say) for one in checklist.findings),
        *(("emergency", one.name, one.say) for one in checklist.emergencies),
    ]
    lines = [f"public <{name or checklist.name}> = {' '.join(say.split())};" for _, name, say in rules]
    owners = (*((("", ""),) * len(head)), *((kind, name) for kind, name, _ in rules))
    others = tuple(map(vocabulary, checklist.others))
    return Vocabulary(checklist, "\n".join([*head, *lines, ""]), owners, others=others)
