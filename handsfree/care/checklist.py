"""A checklist: phases, steps, findings, emergencies. What the keys mean: docs/own-checklist.md."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from handsfree.care.assessment import Assessment, Fault, Rule
from handsfree.errors import ChecklistError

ANY_BRANCH = ""
"""The branch of a step that every branch has."""


@dataclass(frozen=True, slots=True)
class Cue:
    """What is said `after_s` seconds after a step was closed. urgent: even while silence is kept."""

    after_s: int
    say: str
    urgent: bool = False


@dataclass(frozen=True, slots=True)
class Wait:
    """Seconds that must pass since another step was closed.

    values: overrides `s` by the value of the step `by`.
    """

    since: str
    s: int
    say: str
    by: str = ""
    values: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Attempts:
    """How many attempts one person makes, and what is said then."""

    most: int
    say: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step. `say`: JSGF words that close it; `value`: kinds of value that close it instead.

    announce: more words for it, of somebody who talks it through. nudge: the first, smallest cue.
    `called`: JSGF words by which an instructor names it in a drill, besides `say`.
    """

    name: str
    do: str
    phase: str = ""
    how: str = ""
    why: str = ""
    say: str = ""
    announce: str = ""
    nudge: str = ""
    same_words_as: str = ""
    called: str = ""
    value: tuple[str, ...] = ()
    confirm: bool = False
    critical: bool = False
    branch: str = ANY_BRANCH
    after: tuple[str, ...] = ()
    wait: Wait | None = None
    cues: tuple[Cue, ...] = ()
    until: tuple[str, ...] = ()
    sharp: str = ""
    attempt: bool = False
    anytime: bool = False
    must_equal: str = ""
    must_avoid: str = ""
    in_date: bool = False
    counted: bool = False
    clocks: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    tells: tuple[str, ...] = ()
    weight: int = 1
    source: str = ""

    @property
    def words(self) -> str:
        """Name of the grammar rule whose sentences close the step; empty where a value closes it."""
        return "" if self.value else self.same_words_as or self.name

    @property
    def rules(self) -> tuple[str, ...]:
        """Names of all grammar rules that close the step."""
        return self.value or (self.words,)

    def sharp_after(self, before: bool) -> bool:
        """Whether a sharp is open once the step is done. before: whether one was."""
        return {"open": True, "closed": False}.get(self.sharp, before)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something reported: what is said then, which steps are open again, and which are closed by it.

    announce: as of a step. then: steps that are to be done before any of those. while_running: a clock; while
    it runs, this is heard in every phase. ends: clocks that are over.
    """

    name: str
    say: str
    tell: str
    phase: str = ""
    announce: str = ""
    then: tuple[str, ...] = ()
    reopens: tuple[str, ...] = ()
    branch: str = ANY_BRANCH
    attempts: Attempts | None = None
    clocks: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    while_running: str = ""
    closes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Emergency:
    """Words that are heard at any time, and the first steps that are said then."""

    name: str
    say: str
    tell: str


@dataclass(frozen=True, slots=True)
class Score:
    """A score, and what is said of it: it holds where `least` of its signs, by their findings, were found."""

    score: int
    tell: str
    signs: tuple[str, ...] = ()
    least: int = 0
    source: str = ""


@dataclass(frozen=True, slots=True)
class Begin:
    """How a checklist begins over another one. say: its words, in JSGF. needs: the clock that must run, so
    that it makes sense. answers: kinds of reminder that it answers, and that are not repeated meanwhile."""

    say: str
    needs: str = ""
    answers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Phase:
    """A part of the checklist: its steps can be said in any order that is safe."""

    name: str
    title: str
    branch: str = ANY_BRANCH


@dataclass(frozen=True, slots=True)
class Checklist:
    """A checklist as read from its file. text: the file itself, kept with the session.

    may_begin: names of those that may begin over it. others: all that may begin in the session, by whatever
    way; only the session's own checklist has them.
    """

    name: str
    title: str
    branches: tuple[str, ...]
    cautions: tuple[str, ...]
    phases: tuple[Phase, ...]
    steps: tuple[Step, ...]
    findings: tuple[Finding, ...]
    emergencies: tuple[Emergency, ...]
    file: str
    text: str
    scores: tuple[Score, ...] = ()
    begin: Begin | None = None
    may_begin: tuple[str, ...] = ()
    others: tuple[Checklist, ...] = ()
    rules: tuple[Rule, ...] = ()
    faults: tuple[Fault, ...] = ()
    assessment: Assessment = field(default_factory=Assessment)

    def step(self, name: str) -> Step:
        """The step of that name. Raises KeyError."""
        return next((step for step in self.steps if step.name == name), None) or _missing(name)

    def finding(self, name: str) -> Finding | None:
        """The finding of that name, None where there is none."""
        return next((one for one in self.findings if one.name == name), None)

    def fault_to_meet(self, name: str) -> Fault | None:
        """The fault of that name, None where there is none."""
        return next((one for one in self.faults if one.name == name), None)

    def emergency(self, name: str) -> Emergency | None:
        """The emergency of that name, None where there is none."""
        return next((one for one in self.emergencies if one.name == name), None)

    def other(self, name: str) -> Checklist | None:
        """The other checklist of that name, None where there is none."""
        return next((one for one in self.others if one.name == name), None)

    def fault(self, line: int, wrong: str, next_step: str) -> ChecklistError:
        """An error at a line of the file."""
        return ChecklistError(self.file, line, wrong, next_step)


def _missing(name: str) -> Step:
    raise KeyError(name)
