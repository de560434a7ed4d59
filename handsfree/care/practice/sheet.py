"""The sheet on which a run is written down as it goes: what is done, what failed, what is waited for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.assessment import Rule
from handsfree.care.checklist import ANY_BRANCH, Checklist, Finding, Step
from handsfree.care.practice.marks import CueMark, Failure, FaultMark, Saying
from handsfree.care.practice.plain import reason
from handsfree.care.practice.wrong_values import wrong_value

TOLD = 2
"""From this rung of a cue on the step itself was told."""


class Sheet:
    """A run, event by event. order: the rules of order.

    done: by step, the saying that counts. answering: steps that a finding still wants done before all else.
    """

    def __init__(self, checklist: Checklist, order: Iterable[Rule], utc_offset_min: int = 0) -> None:
        self.checklist = checklist
        self.branch = checklist.branches[0] if checklist.branches else ANY_BRANCH
        self.done: dict[str, Saying] = {}
        self.sayings: list[Saying] = []
        self.failures: list[Failure] = []
        self.faults: dict[str, FaultMark] = {}
        self.cues: list[CueMark] = []
        self.seen: dict[str, bool] = {}
        self.accepted: set[str] = set()
        self.answering: dict[str, list[str]] = {}
        self._order = tuple(order)
        self._told: set[str] = set()
        self._offset = timedelta(minutes=utc_offset_min)

    def take(self, event: e.Event, at: datetime) -> None:
        """Write down one event; those that mean nothing here are passed over."""
        match event:
            case e.StepSaid(step, said_at, kind, value, words):
                self._said(Saying(step, said_at, kind, value, words, step in self._told))
            case e.FindingReported(name):
                self._found(self._finding(name), at)
            case e.CueGiven(step, rung, asked):
                self.cues.append(CueMark(at, step, rung, asked))
                self._told |= {step} if rung >= TOLD else set()
            case e.MissedTold(steps):
                self.cues.append(CueMark(at, "", 0))
                self._told |= set(steps)
            case e.FaultSet(fault):
                self.faults[fault] = FaultMark(fault, at)
            case e.Overruled("accepted", name):
                self.accepted.add(name)
            case e.Overruled(what, name):
                self.seen[name] = what == "seen"
            case _:
                pass

    def applies(self, step: Step) -> bool:
        """Whether the step belongs to the branch of this run."""
        return step.branch in (ANY_BRANCH, self.branch)

    def open(self) -> tuple[Step, ...]:
        """What is not done, in order; what a finding wants first."""
        wanted = [name for names in self.answering.values() for name in names]
        first = tuple(self.checklist.step(name) for name in wanted)
        rest = (one for one in self.checklist.steps if self.applies(one) and one.name not in self.done)
        return (*first, *(step for step in rest if step.name not in wanted))

    def behind(self) -> tuple[Step, ...]:
        """What is not done and stands before something that is."""
        places = [place for place, step in enumerate(self.checklist.steps) if step.name in self.done]
        before = {step.name for step in self.checklist.steps[: max(places, default=0)]}
        return tuple(step for step in self.open() if step.name in before)

    def lacking(self, rule: Rule) -> str:
        """The first step that should have been done by now, and well; empty where none lacks."""
        for name in rule.after:
            applies = self.applies(self.checklist.step(name))
            if applies and (name not in self.done or self.wrong(self.done[name])):
                return name
        return ""

    def before(self, step: Step) -> tuple[Rule, ...]:
        """The rules that tell what comes before the step."""
        return tuple(rule for rule in self._order if rule.step == step.name)

    def ready(self, step: Step) -> bool:
        """Whether all that comes before the step is done."""
        return not any(map(self.lacking, self.before(step)))

    def wrong(self, saying: Saying) -> str:
        """What is wrong with the value that was said; empty where nothing is."""
        values = {name: said.value for name, said in self.done.items()}
        attempts = sum(self.checklist.step(one.step).attempt for one in self.sayings)
        today = (saying.at + self._offset).date()
        return wrong_value(self.checklist.step(saying.step), saying, values, attempts, today)

    def _said(self, saying: Saying) -> None:
        self.sayings.append(saying)
        self._meet(saying.step, saying.at)
        if self._answers(saying.step):
            return
        step, before = self.checklist.step(saying.step), self.done.get(saying.step)
        failures = list(self._out_of_order(step, saying))
        repeats = before is not None and before.value == saying.value
        if repeats and not self.failed_at(before) and not self._ends(step):
            return
        self.failures += failures
        for ended in self._ends(step):
            self.done.pop(ended, None)
        self.done[step.name] = saying

    def failed_at(self, saying: Saying | None) -> bool:
        """Whether a rule of order failed at this saying."""
        return any(saying and (one.step, one.at) == (saying.step, saying.at) for one in self.failures)

    def _answers(self, step: str) -> bool:
        """Whether the step belongs to the answer to a finding; what goes on without it leaves it out."""
        for name, wanted in list(self.answering.items()):
            finding = self._finding(name)
            if step in wanted:
                wanted.remove(step)
                if not wanted:
                    del self.answering[name]
                return step in finding.reopens
            if step in finding.reopens:
                self._left_out(finding, self.answering.pop(name), self.sayings[-1])
        return False

    def _left_out(self, finding: Finding, wanted: list[str], saying: Saying) -> None:
        critical = any(self.checklist.step(name).critical for name in wanted)
        failure = Failure(f"{finding.name}_then", saying.at, finding.tell, saying.step, wanted[0], critical)
        self.failures.append(failure)

    def _out_of_order(self, step: Step, saying: Saying) -> Iterator[Failure]:
        for rule in self.before(step):
            lacking = self.lacking(rule)
            if lacking:
                why = rule.why or reason(self.checklist.step(lacking).why)
                yield Failure(rule.name, saying.at, why, step.name, lacking, rule.critical)

    def _ends(self, step: Step) -> tuple[str, ...]:
        """What is to be done anew once this is done: a tie wants its end, an open sharp to be closed."""
        if step.sharp != "open":
            return step.until
        return (*step.until, *(one.name for one in self.checklist.steps if one.sharp == "closed"))

    def _found(self, finding: Finding, at: datetime) -> None:
        self._meet(finding.name, at)
        if finding.branch:
            self.branch = finding.branch
        wanted = [name for name in finding.then if name not in self.done]
        for name in finding.reopens:
            self.done.pop(name, None)
        if wanted:
            self.answering[finding.name] = wanted

    def _meet(self, name: str, at: datetime) -> None:
        for one in self.faults.values():
            fault = self.checklist.fault_to_meet(one.fault)
            if fault is not None and one.met is None and name in fault.answer:
                self.faults[one.fault] = FaultMark(one.fault, one.at, at)

    def _finding(self, name: str) -> Finding:
        finding = self.checklist.finding(name)
        assert finding is not None
        return finding
