"""Reads a checklist from TOML, and refuses a broken one by file and line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, replace
from itertools import pairwise
from types import UnionType
from typing import Any, get_args, get_origin, get_type_hints

from handsfree.care.checklist import Checklist, Emergency, Finding, Phase, Step
from handsfree.care.reminders.reminder import CLOCKS
from handsfree.errors import ChecklistError

_SEE = "See docs/own-checklist.md for what can stand here."
_NAME = re.compile(r"[a-z][a-z0-9_]*")
_TOML_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")


def read_checklist(text: str, file: str, emergencies: str = "") -> Checklist:
    """Read a checklist.

    emergencies: TOML text of the emergencies that hold in every checklist; the file may add its own.
    Raises ChecklistError.
    """
    table = _toml(text, file)
    lines = _Lines(text, file)
    _known(table, {"name", "title", "branches", "cautions", "phase", "emergency"}, lines, "")
    phases = [
        _made(Phase, _without(one, "step", "finding"), lines, "phase", i)
        for i, one in enumerate(_tables(table, "phase", lines))
    ]
    shared = _toml(emergencies, "emergencies.toml").get("emergency", [])
    name = _text(table, "name", lines)
    checklist = Checklist(
        name=name,
        title=_value(table.get("title", table["name"]), str, lines, 1, "title"),
        branches=_value(table.get("branches", []), tuple[str, ...], lines, 1, "branches"),
        cautions=_value(table.get("cautions", []), tuple[str, ...], lines, 1, "cautions"),
        phases=tuple(phases),
        steps=tuple(_inside(Step, "step", table, lines)),
        findings=tuple(_inside(Finding, "finding", table, lines)),
        emergencies=tuple(
            [
                _made(Emergency, one, _Lines(emergencies, "emergencies.toml"), "emergency", i)
                for i, one in enumerate(shared)
            ]
            + [
                _made(Emergency, one, lines, "emergency", i)
                for i, one in enumerate(_tables(table, "emergency", lines))
            ]
        ),
        file=file,
        text=text,
    )
    _Checked(checklist, lines).all()
    return checklist


def line_of(text: str, kind: str, name: str) -> int:
    """The line on which the step, finding or emergency of that name begins; 0 where there is none."""
    return next((line for what, named, line in _Lines(text, "").tables if what == kind and named == name), 0)


def _toml(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        place = _TOML_PLACE.search(str(fault))
        line = int(place[1]) if place else text.count("\n") + 1
        raise ChecklistError(file, line, f"not TOML: {fault}.", "Mend this line and start again.") from None


class _Lines:
    """Where the tables of a TOML text begin: kind ("step"), name and line of each, in order."""

    def __init__(self, text: str, file: str) -> None:
        self.file = file
        self.tables = list(self._found(text.splitlines()))

    @staticmethod
    def _found(lines: list[str]) -> Iterator[tuple[str, str, int]]:
        heads = [
            (i, head[1].split(".")[-1])
            for i, line in enumerate(lines)
            if (head := re.match(r"\s*\[\[\s*([\w.]+)\s*\]\]", line))
        ]
        for (start, kind), (end, _) in pairwise([*heads, (len(lines), "")]):
            names = (re.match(r'\s*name\s*=\s*["\'](.*)["\']', line) for line in lines[start:end])
            yield kind, next((name[1] for name in names if name), ""), start + 1

    def line(self, kind: str, index: int) -> int:
        """Line of the n-th table of a kind; 1 for the file itself."""
        found = [line for what, _, line in self.tables if what == kind]
        return found[index] if index < len(found) else 1

    def named(self, kind: str, name: str) -> int:
        """Line of the last table of that name."""
        found = [line for what, named, line in self.tables if (what, named) == (kind, name)]
        return found[-1] if found else 1

    def fault(self, line: int, wrong: str, next_step: str = _SEE) -> ChecklistError:
        """An error at a line."""
        return ChecklistError(self.file, line, wrong, next_step)


def _inside(kind: type[Any], key: str, table: Mapping[str, Any], lines: _Lines) -> Iterator[Any]:
    """Steps or findings of all phases, each with its phase's name and, unless it has its own, branch."""
    index = 0
    for phase in _tables(table, "phase", lines):
        for one in _tables(phase, key, lines, lines.named("phase", phase["name"])):
            made = _made(kind, one, lines, key, index)
            yield replace(made, phase=phase["name"], **_inherited(made, phase, key))
            index += 1


def _inherited(made: Any, phase: Mapping[str, Any], key: str) -> dict[str, str]:
    return {"branch": phase["branch"]} if key == "step" and phase.get("branch") and not made.branch else {}


def _made(kind: type[Any], table: Any, lines: _Lines, key: str, index: int) -> Any:
    """One dataclass from one table; every key known, every value of its type."""
    line = lines.line(key, index)
    if not isinstance(table, dict):
        raise lines.fault(line, f"{key} is not a table.")
    hints = get_type_hints(kind)
    _known(table, set(hints) - {"phase"}, lines, key, line)
    missing = [
        one.name
        for one in fields(kind)
        if one.default is MISSING and one.default_factory is MISSING and one.name not in table
    ]
    if missing:
        raise lines.fault(line, f"this {key} has no {missing[0]}.", f'Add {missing[0]} = "…".')
    return kind(**{name: _value(value, hints[name], lines, line, name) for name, value in table.items()})


def _value(value: Any, hint: Any, lines: _Lines, line: int, name: str) -> Any:
    inner = get_args(hint)
    if get_origin(hint) is tuple:
        items = value if isinstance(value, list) else [value]
        return tuple(_value(item, inner[0], lines, line, name) for item in items)
    if isinstance(hint, UnionType) or hasattr(hint, "__dataclass_fields__"):
        kind = next(one for one in (*inner, hint) if hasattr(one, "__dataclass_fields__"))
        return _part(kind, value, lines, line, name)
    if get_origin(hint) in (dict, Mapping) or "Mapping" in str(hint):
        return _numbers(value, lines, line, name)
    if type(value) is not hint:
        raise lines.fault(line, f"{name} should be {_KINDS.get(hint, hint.__name__)}, not {value!r}.")
    return value


def _numbers(value: Any, lines: _Lines, line: int, name: str) -> dict[str, int]:
    if not isinstance(value, dict) or any(type(item) is not int for item in value.values()):
        raise lines.fault(line, f"{name} should be a table of whole numbers.")
    return value


def _tables(table: Mapping[str, Any], key: str, lines: _Lines, line: int = 1) -> list[Any]:
    found = table.get(key, [])
    if not isinstance(found, list):
        raise lines.fault(line, f"{key} should be a list of tables.", f"Begin each with its own [[…{key}]].")
    return found


def _part(kind: type[Any], value: Any, lines: _Lines, line: int, name: str) -> Any:
    hints = get_type_hints(kind)
    if not isinstance(value, dict) or set(value) - set(hints):
        raise lines.fault(line, f"{name} should be a table with {', '.join(hints)}.")
    try:
        return kind(**{key: _value(item, hints[key], lines, line, key) for key, item in value.items()})
    except TypeError:
        raise lines.fault(line, f"{name} lacks one of {', '.join(hints)}.") from None


_KINDS = {str: "a text in quotes", bool: "true or false", int: "a whole number"}


def _known(table: Mapping[str, Any], known: set[str], lines: _Lines, key: str, line: int = 1) -> None:
    unknown = sorted(set(table) - known)
    if unknown:
        raise lines.fault(line, f"the key {unknown[0]} is not known{f' in a {key}' if key else ''}.")


def _text(table: Mapping[str, Any], key: str, lines: _Lines) -> str:
    if not isinstance(table.get(key), str) or not _NAME.fullmatch(table[key]):
        raise lines.fault(
            1, f"the file has no {key} made of small letters.", f'Begin it with {key} = "my_list".'
        )
    return str(table[key])


def _without(table: Any, *keys: str) -> Any:
    return {k: v for k, v in table.items() if k not in keys} if isinstance(table, dict) else table


class _Checked:
    """Whether the parts of a checklist fit together."""

    def __init__(self, checklist: Checklist, lines: _Lines) -> None:
        self._list, self._lines = checklist, lines
        self._steps = {step.name: step for step in checklist.steps}

    def all(self) -> None:
        """Raise ChecklistError for the first thing that does not fit."""
        if not self._list.steps:
            raise self._lines.fault(
                1, "the checklist has no step.", "Add [[phase]] and [[phase.step]] tables."
            )
        seen: set[str] = set()
        for kind, one in self._named():
            if not _NAME.fullmatch(one.name) or one.name in seen:
                why = "is used twice" if one.name in seen else "is not made of small letters, digits and _"
                raise self._fault(kind, one.name, f"the name {one.name!r} {why}.")
            seen.add(one.name)
        for step in self._list.steps:
            self._step(step)
        for finding in self._list.findings:
            self._refer("finding", finding.name, "reopens", finding.reopens)
            self._branch("finding", finding.name, finding.branch)
            self._clocks("finding", finding.name, finding.clocks)

    def _named(self) -> Iterator[tuple[str, Any]]:
        yield from (("step", one) for one in self._list.steps)
        yield from (("finding", one) for one in self._list.findings)
        yield from (("emergency", one) for one in self._list.emergencies)

    def _step(self, step: Step) -> None:
        ways = [bool(step.say), bool(step.value), bool(step.same_words_as)]
        if sum(ways) != 1:
            raise self._fault(
                "step", step.name, f"step {step.name} needs one of say, value and same_words_as."
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
        self._clocks("step", step.name, step.clocks)
        if step.sharp not in ("", "open", "closed"):
            raise self._fault("step", step.name, "sharp is open or closed.")

    def _refer(self, kind: str, name: str, key: str, others: tuple[str, ...]) -> None:
        unknown = [other for other in others if other not in self._steps]
        if unknown:
            raise self._fault(
                kind, name, f"{kind} {name} names {unknown[0]} among its {key}, and there is no such step."
            )

    def _branch(self, kind: str, name: str, branch: str) -> None:
        if branch and branch not in self._list.branches:
            raise self._fault(kind, name, f"{branch} is not among the branches of the checklist.")

    def _clocks(self, kind: str, name: str, clocks: tuple[str, ...]) -> None:
        unknown = sorted(set(clocks) - CLOCKS)
        if unknown:
            raise self._fault(
                kind, name, f"there is no clock {unknown[0]}, only {', '.join(sorted(CLOCKS))}."
            )

    def _fault(self, kind: str, name: str, wrong: str) -> ChecklistError:
        return self._lines.fault(self._lines.named(kind, name), wrong)
