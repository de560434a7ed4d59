"""Whether the parts of a checklist fit together."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from handsfree.care.assessment import Fault, Rule
from handsfree.care.checklist import Checklist, Finding, Step
from handsfree.care.checklist_lines import Lines
from handsfree.care.reminders.reminder import CLOCKS, KINDS, TOLD
from handsfree.errors import ChecklistError
from handsfree.words import worded

NAME = re.compile(r"[a-z][a-z0-9_]*")


class Check:
    """One checklist, with the lines of its file."""

    def __init__(self, checklist: Checklist, lines: Lines) -> None:
        self._list, self._lines = checklist, lines
        self._steps = {step.name: step for step in checklist.steps}

    def all(self) -> None:
        """Raise ChecklistError for the first thing that does not fit."""
        if not self._list.steps:
            raise self._lines.fault(
                1, worded("the checklist has no step."), worded("Add [[phase]] and [[phase.step]] tables.")
            )
        seen: set[str] = set()
        for kind, one in self._named():
            if not NAME.fullmatch(one.name) or one.name in seen:
                wrong = worded("the name {name!r} is not made of small letters, digits and _.", name=one.name)
                if one.name in seen:
                    wrong = worded("the name {name!r} is used twice.", name=one.name)
                raise self._fault(kind, one.name, wrong)
            seen.add(one.name)
        self._begin(seen)
        for step in self._list.steps:
            self._step(step)
        for finding in self._list.findings:
            self._finding(finding)
        for rule in self._list.rules:
            self._rule(rule)
        for fault in self._list.faults:
            self._fault_to_meet(fault)
        if self._list.assessment.prompted_percent > 100:
            raise self._fault("assessment", "", worded("prompted_percent is a share, 100 at the most."))
        self._scores()

    def _scores(self) -> None:
        for i, score in enumerate(self._list.scores):
            unknown = [sign for sign in score.signs if self._list.finding(sign) is None]
            if unknown:
                wrong = worded("there is no finding {name}.", name=unknown[0])
                raise self._lines.fault(self._lines.line("score", i), wrong)

    def _named(self) -> Iterator[tuple[str, Any]]:
        yield from (("step", one) for one in self._list.steps)
        yield from (("finding", one) for one in self._list.findings)
        yield from (("rule", one) for one in self._list.rules)
        yield from (("fault", one) for one in self._list.faults)
        yield from (("emergency", one) for one in self._list.emergencies)

    def _begin(self, names: set[str]) -> None:
        begin = self._list.begin
        if begin is None:
            return
        if self._list.name in names:
            raise self._fault(
                "begin",
                "",
                worded("the checklist and a part of it are both called {name}.", name=self._list.name),
            )
        self._clocks("begin", "", (begin.needs,) if begin.needs else ())
        unknown = [kind for kind in begin.answers if kind not in KINDS]
        if unknown:
            kinds = ", ".join(KINDS)
            wrong = worded("no reminder is called {unknown}, only {kinds}.", unknown=unknown[0], kinds=kinds)
            raise self._fault("begin", "", wrong)

    def _step(self, step: Step) -> None:
        ways = [bool(step.say), bool(step.value), bool(step.same_words_as)]
        if sum(ways) != 1:
            raise self._fault(
                "step",
                step.name,
                worded("step {name} needs one of say, value and same_words_as.", name=step.name),
            )
        if step.announce and not step.say:
            raise self._fault(
                "step", step.name, worded("step {name} has announce, and no say beside it.", name=step.name)
            )
        others = (
            step.same_words_as,
            step.must_equal,
            step.must_avoid,
            step.wait.since if step.wait else "",
            step.wait.by if step.wait else "",
        )
        self._refer("step", step.name, "steps", (*step.after, *step.until, *filter(None, others)))
        self._branch("step", step.name, step.branch)
        self._clocks("step", step.name, (*step.clocks, *step.ends))
        unknown = [topic for topic in step.tells if topic not in TOLD]
        if unknown:
            known = ", ".join(TOLD)
            wrong = worded("a step cannot tell {unknown}, only {known}.", unknown=unknown[0], known=known)
            raise self._fault("step", step.name, wrong)
        if step.sharp not in ("", "open", "closed"):
            raise self._fault("step", step.name, worded("sharp is open or closed."))

    def _finding(self, finding: Finding) -> None:
        self._refer("finding", finding.name, "reopens", finding.reopens)
        self._refer("finding", finding.name, "closes", finding.closes)
        self._refer("finding", finding.name, "then", finding.then)
        self._branch("finding", finding.name, finding.branch)
        running = (finding.while_running,) if finding.while_running else ()
        self._clocks("finding", finding.name, (*finding.clocks, *finding.ends, *running))

    def _rule(self, rule: Rule) -> None:
        order = bool(rule.step) and bool(rule.after)
        stretch = bool(rule.begins) and bool(rule.ends)
        bounds = bool(rule.at_least_s) or bool(rule.at_most_s) or bool(rule.never)
        if order == stretch or stretch != bounds:
            wrong = worded(
                "rule {name} needs step and after, or begins, ends and what holds between them.",
                name=rule.name,
            )
            raise self._fault("rule", rule.name, wrong)
        if 0 < rule.at_most_s < rule.at_least_s:
            raise self._fault(
                "rule", rule.name, worded("rule {name} takes at most less than at least.", name=rule.name)
            )
        named = (rule.step, *rule.after, *rule.begins, *rule.ends, *rule.never, rule.by)
        self._refer("rule", rule.name, "steps", tuple(filter(None, named)))

    def _fault_to_meet(self, fault: Fault) -> None:
        if not (fault.answer and fault.within_s):
            wrong = worded("fault {name} needs an answer, and time for it.", name=fault.name)
            raise self._fault("fault", fault.name, wrong)
        findings = {one.name for one in self._list.findings}
        steps = tuple(name for name in (*fault.answer, fault.when) if name and name not in findings)
        self._refer("fault", fault.name, "answers", steps)

    def _refer(self, kind: str, name: str, key: str, others: tuple[str, ...]) -> None:
        unknown = [other for other in others if other not in self._steps]
        if unknown:
            raise self._fault(
                kind,
                name,
                worded(
                    "{kind} {name} names {unknown} among its {key}, and there is no such step.",
                    kind=kind,
                    name=name,
                    unknown=unknown[0],
                    key=key,
                ),
            )

    def _branch(self, kind: str, name: str, branch: str) -> None:
        if branch and branch not in self._list.branches:
            raise self._fault(
                kind, name, worded("{branch} is not among the branches of the checklist.", branch=branch)
            )

    def _clocks(self, kind: str, name: str, clocks: tuple[str, ...]) -> None:
        unknown = sorted(set(clocks) - CLOCKS)
        if unknown:
            known = ", ".join(sorted(CLOCKS))
            wrong = worded("there is no clock {unknown}, only {known}.", unknown=unknown[0], known=known)
            raise self._fault(kind, name, wrong)

    def _fault(self, kind: str, name: str, wrong: str) -> ChecklistError:
        return self._lines.fault(self._lines.named(kind, name), wrong)
