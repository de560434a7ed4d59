"""Reads a checklist from TOML, and refuses a broken one by file and line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import MISSING, fields, replace
from functools import cache
from types import UnionType
from typing import Any, get_args, get_origin, get_type_hints

from handsfree.care.assessment import Assessment, Fault, Rule
from handsfree.care.checklist import Begin, Checklist, Emergency, Finding, Phase, Score, Step
from handsfree.care.checklist_check import NAME, Check
from handsfree.care.checklist_lines import Lines, toml
from handsfree.words import worded

_hints: Callable[[Any], dict[str, Any]] = cache(get_type_hints)

_KEYS = {
    *("name", "title", "branches", "cautions", "phase", "emergency", "score", "begin", "may_begin"),
    *("rule", "fault", "assessment"),
}


def read_checklist(text: str, file: str, emergencies: str = "") -> Checklist:
    """Read a checklist.

    emergencies: TOML text of the emergencies that hold in every checklist; the file may add its own.
    Raises ChecklistError.
    """
    table, lines = toml(text, file), Lines(text, file)
    _known(table, _KEYS, lines, "")
    shared, shared_lines = toml(emergencies, "emergencies.toml"), Lines(emergencies, "emergencies.toml")
    checklist = Checklist(
        name=_text(table, "name", lines),
        title=_value(table.get("title", table["name"]), str, lines, 1, "title"),
        branches=_value(table.get("branches", []), tuple[str, ...], lines, 1, "branches"),
        cautions=_value(table.get("cautions", []), tuple[str, ...], lines, 1, "cautions"),
        phases=tuple(
            _made(Phase, _without(one, "step", "finding"), lines, "phase", i)
            for i, one in enumerate(_tables(table, "phase", lines))
        ),
        steps=tuple(_inside(Step, "step", table, lines)),
        findings=tuple(_inside(Finding, "finding", table, lines)),
        emergencies=(
            *_all(Emergency, "emergency", shared, shared_lines),
            *_all(Emergency, "emergency", table, lines),
        ),
        file=file,
        text=text,
        scores=tuple(_all(Score, "score", table, lines)),
        begin=_begin(table, lines),
        may_begin=_value(table.get("may_begin", []), tuple[str, ...], lines, 1, "may_begin"),
        rules=tuple(_all(Rule, "rule", table, lines)),
        faults=tuple(_all(Fault, "fault", table, lines)),
        assessment=_part(Assessment, table.get("assessment", {}), lines, 1, "assessment"),
    )
    Check(checklist, lines).all()
    return checklist


def _all(kind: type[Any], key: str, table: Mapping[str, Any], lines: Lines) -> Iterator[Any]:
    """The tables of a kind that stand beside the phases."""
    for index, one in enumerate(_tables(table, key, lines)):
        yield _made(kind, one, lines, key, index)


def _begin(table: Mapping[str, Any], lines: Lines) -> Begin | None:
    return _made(Begin, table["begin"], lines, "begin", 0) if "begin" in table else None


def _inside(kind: type[Any], key: str, table: Mapping[str, Any], lines: Lines) -> Iterator[Any]:
    """Steps or findings of all phases, each with its phase's name and, unless it has its own, branch."""
    index = 0
    for phase in _tables(table, "phase", lines):
        for one in _tables(phase, key, lines, lines.named("phase", phase["name"])):
            made = _made(kind, one, lines, key, index)
            yield replace(made, phase=phase["name"], **_inherited(made, phase, key))
            index += 1


def _inherited(made: Any, phase: Mapping[str, Any], key: str) -> dict[str, str]:
    return {"branch": phase["branch"]} if key == "step" and phase.get("branch") and not made.branch else {}


def _made(kind: type[Any], table: Any, lines: Lines, key: str, index: int) -> Any:
    """One dataclass from one table; every key known, every value of its type."""
    line = lines.line(key, index)
    if not isinstance(table, dict):
        raise lines.fault(line, worded("{key} is not a table.", key=key))
    hints = _hints(kind)
    _known(table, set(hints) - {"phase"}, lines, key, line)
    missing = [
        one.name
        for one in fields(kind)
        if one.default is MISSING and one.default_factory is MISSING and one.name not in table
    ]
    if missing:
        raise lines.fault(
            line,
            worded("this {key} has no {missing}.", key=key, missing=missing[0]),
            worded('Add {missing} = "…".', missing=missing[0]),
        )
    return kind(**{name: _value(value, hints[name], lines, line, name) for name, value in table.items()})


def _value(value: Any, hint: Any, lines: Lines, line: int, name: str) -> Any:
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
        raise lines.fault(
            line,
            worded(
                "{name} should be {hint}, not {value!r}.",
                name=name,
                hint=_KINDS.get(hint, hint.__name__),
                value=value,
            ),
        )
    if hint is int and value < 0:
        raise lines.fault(line, worded("{name} should not be less than 0.", name=name))
    return value


def _numbers(value: Any, lines: Lines, line: int, name: str) -> dict[str, int]:
    if not isinstance(value, dict) or any(type(item) is not int for item in value.values()):
        raise lines.fault(line, worded("{name} should be a table of whole numbers.", name=name))
    return value


def _tables(table: Mapping[str, Any], key: str, lines: Lines, line: int = 1) -> list[Any]:
    found = table.get(key, [])
    if not isinstance(found, list):
        raise lines.fault(
            line,
            worded("{key} should be a list of tables.", key=key),
            worded("Begin each with its own [[…{key}]].", key=key),
        )
    return found


def _part(kind: type[Any], value: Any, lines: Lines, line: int, name: str) -> Any:
    hints = _hints(kind)
    if not isinstance(value, dict) or set(value) - set(hints):
        raise lines.fault(
            line, worded("{name} should be a table with {hints}.", name=name, hints=", ".join(hints))
        )
    try:
        return kind(**{key: _value(item, hints[key], lines, line, key) for key, item in value.items()})
    except TypeError:
        raise lines.fault(
            line, worded("{name} lacks one of {hints}.", name=name, hints=", ".join(hints))
        ) from None


_KINDS = {str: worded("a text in quotes"), bool: worded("true or false"), int: worded("a whole number")}


def _known(table: Mapping[str, Any], known: set[str], lines: Lines, key: str, line: int = 1) -> None:
    unknown = sorted(set(table) - known)
    if unknown:
        raise lines.fault(
            line,
            worded("the key {unknown} is not known in a {key}.", unknown=unknown[0], key=key)
            if key
            else worded("the key {unknown} is not known.", unknown=unknown[0]),
        )


def _text(table: Mapping[str, Any], key: str, lines: Lines) -> str:
    if not isinstance(table.get(key), str) or not NAME.fullmatch(table[key]):
        raise lines.fault(
            1,
            worded("the file has no {key} made of small letters.", key=key),
            worded('Begin it with {key} = "my_list".', key=key),
        )
    return str(table[key])


def _without(table: Any, *keys: str) -> Any:
    return {k: v for k, v in table.items() if k not in keys} if isinstance(table, dict) else table
