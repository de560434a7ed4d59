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
    """

    checklist: Checklist
    text: str
    owners: tuple[tuple[str, str], ...]
    shipped: tuple[str, ...] = SHIPPED


def vocabulary(checklist: Checklist) -> Vocabulary:
    """What the steps, findings and emergencies of a checklist add to the shipped grammars."""
    head = ["#JSGF V1.0;", f"grammar {checklist.name};", *(f"import <{name}.*>;" for name in SHIPPED)]
    rules = [
        *(("step", step.name, step.say) for step in checklist.steps if step.say),
        *(("finding", one.name, one.say) for one in checklist.findings),
        *(("emergency", one.name, one.say) for one in checklist.emergencies),
    ]
    lines = [f"public <{name}> = {' '.join(say.split())};" for _, name, say in rules]
    owners = (*((("", ""),) * len(head)), *((kind, name) for kind, name, _ in rules))
    return Vocabulary(checklist, "\n".join([*head, *lines, ""]), owners)
