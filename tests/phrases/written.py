"""A grammar written as one JSGF text, rules kept as rules, without imports and tags: for others to read."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from enum import IntEnum
from typing import assert_never

from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Null,
    Reference,
    Repeat,
    Rules,
    Sequence,
    Tagged,
    Void,
    Word,
    options,
    short,
)

ROOT = "sentence"
"""Name of the one public rule, where no rule of the grammar has it."""


class _Binds(IntEnum):
    """How tightly, by the standard's precedence."""

    CHOICE = 0
    SEQUENCE = 1
    UNARY = 2
    ATOM = 3


def written(rules: Rules) -> str:
    """The text, words in the recogniser's spelling. rules: pruned; PocketSphinx trips over <VOID>."""
    names = _names(rules)
    root = ROOT
    while root in names.values():
        root += "_"
    whole = " | ".join(f"<{names[name]}>" for name in rules.public)
    lines = ["#JSGF V1.0;", "", "grammar handsfree;", "", f"public <{root}> = {whole or '<VOID>'};"]
    for name, rule in rules.by_name.items():
        lines.append(f"<{names[name]}> = {_written(rule.body, names, _Binds.CHOICE)};")
    return "\n".join(lines) + "\n"


def _names(rules: Rules) -> dict[str, str]:
    """A plain name for each rule: the short one, or the full one where two grammars share it."""
    plain = {name: re.sub(r"\W", "_", short(name)) for name in rules.by_name}
    often = Counter(plain.values())
    return {
        name: bare if often[bare] == 1 else f"{bare}_{number}"
        for number, (name, bare) in enumerate(plain.items())
    }


def _written(expansion: Expansion, names: Mapping[str, str], least: _Binds) -> str:
    """The expansion, in brackets where it binds less than `least`."""
    text, binds = _text(expansion, names)
    return text if binds >= least else f"({text})"


def _text(expansion: Expansion, names: Mapping[str, str]) -> tuple[str, _Binds]:
    match expansion:
        case Null():
            return "<NULL>", _Binds.ATOM
        case Void():
            return "<VOID>", _Binds.ATOM
        case Reference(rule):
            return f"<{names[rule]}>", _Binds.ATOM
        case Word(_, sounds):
            return " ".join(sounds), _Binds.ATOM if len(sounds) == 1 else _Binds.SEQUENCE
        case Tagged(body):
            return _text(body, names)
        case Sequence(parts):
            return " ".join(_written(part, names, _Binds.UNARY) for part in parts), _Binds.SEQUENCE
        case Repeat(body, least):
            return _written(body, names, _Binds.ATOM) + ("+" if least else "*"), _Binds.UNARY
        case Choice((body, Null()), ()):
            return f"[{_written(body, names, _Binds.CHOICE)}]", _Binds.ATOM
        case Choice():
            return _choice(expansion, names)
        case _:
            assert_never(expansion)


def _choice(choice: Choice, names: Mapping[str, str]) -> tuple[str, _Binds]:
    written = [(_written(option, names, _Binds.SEQUENCE), weight) for option, weight in options(choice)]
    if choice.weights:
        return " | ".join(f"/{weight:f}/ {text}" for text, weight in written), _Binds.CHOICE
    return " | ".join(text for text, _ in written), _Binds.CHOICE
