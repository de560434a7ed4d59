"""Reads the text of one grammar file: JSpeech Grammar Format 1.0 (W3C Note, 5 June 2000)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from lark import Lark, Token, Transformer, v_args
from lark.exceptions import UnexpectedInput, VisitError

from handsfree.phrases.refusal import refusal, refuse
from handsfree.phrases.tree import (
    Choice,
    Expansion,
    Null,
    Place,
    Reference,
    Repeat,
    Rule,
    Sequence,
    Tagged,
    Void,
    Word,
    optional,
)
from handsfree.words import worded

_SYNTAX = r"""
start: HEADER "grammar" NAME ";" import_* rule*
import_: "import" RULENAME ";"
rule: [PUBLIC] RULENAME "=" _expansion ";"
_expansion: alternatives
alternatives: alternative ("|" alternative)*
alternative: [WEIGHT] sequence
sequence: _item+
_item: star | plus | tagged | _atom
star: _item "*"
plus: _item "+"
tagged: _item TAG
_atom: token | quoted | reference | group | option
token: TOKEN
quoted: QUOTED
reference: RULENAME
group: "(" _expansion ")"
option: "[" _expansion "]"

HEADER: /#JSGF[ \t]+V1\.0([ \t]+[^\s;]+){0,2}[ \t]*;/
PUBLIC: "public"
NAME: /[^\W\d][\w$]*(\.[^\W\d][\w$]*)*/
RULENAME: /<[ \t]*[\w+\-:;,=|\/\\()\[\]@#%!^&~$]+(\.[\w+\-:;,=|\/\\()\[\]@#%!^&~$]+)*(\.\*)?[ \t]*>/
WEIGHT: /\/[ \t]*(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?[fF]?[ \t]*\//
TAG: /\{(\\.|[^\\}])*\}/s
QUOTED: /"(\\.|[^\\"])*"/s
TOKEN: /[^\s;=|*+<>()\[\]{}\/"\\]+/
%ignore /\s+/
%ignore /\/\/[^\n\r]*/
%ignore /\/\*.*?\*\//s
"""


@dataclass(frozen=True, slots=True)
class Import:
    """One import: the grammar's full name, and the rule's, or `*`."""

    grammar: str
    rule: str
    place: Place


@dataclass(frozen=True, slots=True)
class Source:
    """One grammar file as written: rule names are short, references are not resolved."""

    name: str
    imports: tuple[Import, ...]
    rules: tuple[Rule, ...]
    file: str


def parse(text: str, file: str) -> Source:
    """Read one grammar file. file: its name, for messages. Raises GrammarError."""
    try:
        tree = _parser().parse(text.removeprefix("\ufeff"))
        return _Build(file).transform(tree)  # type: ignore[no-any-return]
    except UnexpectedInput as unexpected:
        raise refusal(unexpected, text, file) from None
    except VisitError as inner:
        raise inner.orig_exc from None


@cache
def _parser() -> Lark:
    return Lark(_SYNTAX, parser="lalr", maybe_placeholders=True)


@v_args(inline=True)
class _Build(Transformer[Token, Any]):
    """Turns lark's tree into ours, from the leaves up."""

    def __init__(self, file: str) -> None:
        super().__init__()
        self._file = file

    def _place(self, token: Token) -> Place:
        return Place(self._file, token.line or 0, token.column or 0)

    def start(self, _header: Token, name: Token, *statements: Import | Rule) -> Source:
        imports = tuple(one for one in statements if isinstance(one, Import))
        rules = tuple(one for one in statements if isinstance(one, Rule))
        return Source(str(name), imports, rules, self._file)

    def import_(self, name: Token) -> Import:
        place = self._place(name)
        grammar, _, rule = _bare(name).rpartition(".")
        if not grammar:
            raise refuse(
                place,
                worded("import {name} names no grammar", name=name),
                worded("Write import <grammar.rule>; or <grammar.*>;"),
            )
        return Import(grammar, rule, place)

    def rule(self, public: Token | None, name: Token, body: Expansion) -> Rule:
        place = self._place(name)
        if _bare(name) in ("NULL", "VOID"):
            raise refuse(
                place,
                worded("{name} is reserved and cannot be defined", name=name),
                worded("Choose another name."),
            )
        if "." in _bare(name):
            raise refuse(
                place,
                worded("{name} cannot be defined: its name has a dot", name=name),
                worded("Define rules by their short name."),
            )
        return Rule(_bare(name), body, public is not None, place)

    def alternatives(self, *weighted: tuple[float | None, Expansion]) -> Expansion:
        options = tuple(option for _, option in weighted)
        if all(weight is None for weight, _ in weighted):
            return options[0] if len(options) == 1 else Choice(options)
        return Choice(options, tuple(1.0 if weight is None else weight for weight, _ in weighted))

    def alternative(self, weight: Token | None, body: Expansion) -> tuple[float | None, Expansion]:
        return None if weight is None else float(weight.strip("/ \tfF")), body

    def sequence(self, *parts: Expansion) -> Expansion:
        return parts[0] if len(parts) == 1 else Sequence(parts)

    def star(self, body: Expansion) -> Expansion:
        return Repeat(body, 0)

    def plus(self, body: Expansion) -> Expansion:
        return Repeat(body, 1)

    def tagged(self, body: Expansion, tag: Token) -> Expansion:
        return Tagged(body, _unescaped(tag[1:-1]).strip())

    def token(self, token: Token) -> Expansion:
        return Word(str(token), (token.casefold(),), self._place(token))

    def quoted(self, token: Token) -> Expansion:
        words = _unescaped(token[1:-1]).split()
        if not words:
            raise refuse(
                self._place(token), worded("this quoted token is empty"), worded("Write <NULL> for nothing.")
            )
        return Word(" ".join(words), tuple(word.casefold() for word in words), self._place(token))

    def reference(self, name: Token) -> Expansion:
        match _bare(name):
            case "NULL":
                return Null()
            case "VOID":
                return Void()
            case rule if rule.endswith("*"):
                raise refuse(
                    self._place(name),
                    worded("{name} is not one rule", name=name),
                    worded("Name the rule; .* is for imports."),
                )
            case rule:
                return Reference(rule, self._place(name))

    def group(self, body: Expansion) -> Expansion:
        return body

    def option(self, body: Expansion) -> Expansion:
        return optional(body)


def _bare(name: Token) -> str:
    return name.strip("<> \t")


def _unescaped(text: str) -> str:
    return re.sub(r"\\(.)", r"\1", text, flags=re.DOTALL)
