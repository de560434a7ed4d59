"""What a checklist leaves unclear, though it can be run: for whoever writes one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from handsfree.care.checklist import Checklist, Finding, Step
from handsfree.words import worded

MOST_WORDS = 20
"""More words at once are not kept in mind while the hands are busy (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to think about. kind, name: of the table that it is about, "step" or "finding"."""

    kind: str
    name: str
    text: str


def remarks(checklist: Checklist) -> Iterator[Remark]:
    """What the text of a checklist leaves unclear, in its order."""
    for step in checklist.steps:
        yield from (Remark("step", step.name, text) for text in _of_step(step))
    for finding in checklist.findings:
        yield from (Remark("finding", finding.name, text) for text in _of_finding(finding))


def _of_step(step: Step) -> Iterator[str]:
    if not step.how and not step.why:
        yield worded("has neither how nor why: whoever asks for them hears nothing new.")
    if len(step.do.split()) > MOST_WORDS:
        yield worded("says more than {number} words at once: move the rest into its how.", number=MOST_WORDS)
    if (step.wait or step.cues) and not step.source:
        yield worded("has times, and no source for them.")


def _of_finding(finding: Finding) -> Iterator[str]:
    if len(finding.tell.split()) > MOST_WORDS:
        yield worded("tells more than {number} words at once: say the first things first.", number=MOST_WORDS)
    if finding.attempts is not None and not finding.attempts.source:
        yield worded("limits attempts, and has no source for it.")
