"""Reads the text of one grammar file: JSpeech Grammar Format 1.0 (W3C Note, 5 June 2000)."""

from __future__ import annotations

import re
from dataclasses import dataclass

from handsfree.errors import GrammarError
from handsfree.phrases.lexemes import END, Lexeme, lexemes
from handsfree.phrases.refusal import refuse, unexpected
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

_GRAMMAR_NAME = re.compile(r"[^\W\d][\w$]*(\.[^\W\d][\w$]*)*")

_ITEM = ("token", "quoted", "rule", "(", "[")
"""Lexemes with which an item begins."""


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
    return _Reader(text.removeprefix("\ufeff"), file).source()


class _Reader:
    """Reads a file from front to back, one lexeme ahead: each method what it is called after."""

    def __init__(self, text: str, file: str) -> None:
        self._file = file
        self._lexemes = lexemes(text)
        self._next = next(self._lexemes)

    def source(self) -> Source:
        if self._next.kind != "header":
            raise refuse(
                Place(self._file, 1, 1),
                worded("this is not a grammar file"),
                worded("Begin it with “#JSGF V1.0;”."),
            )
        self._take()
        name = self._name()
        imports = []
        while self._has("import"):
            imports.append(self._import())
        rules = []
        while self._next.kind != END:
            rules.append(self._rule())
        return Source(name, tuple(imports), tuple(rules), self._file)

    def _name(self) -> str:
        if not self._has("grammar"):
            raise self._unexpected(worded("“grammar name;”"))
        if not _GRAMMAR_NAME.fullmatch(self._next.text):
            raise self._unexpected(worded("a name"))
        name = self._take().text
        self._pass(";")
        return name

    def _import(self) -> Import:
        name = self._called()
        self._pass(";")
        grammar, _, rule = _bare(name.text).rpartition(".")
        if not grammar:
            raise refuse(
                self._place(name),
                worded("import {name} names no grammar", name=name.text),
                worded("Write import <grammar.rule>; or <grammar.*>;"),
            )
        return Import(grammar, rule, self._place(name))

    def _rule(self) -> Rule:
        public = self._has("public")
        name = self._called()
        if _bare(name.text) in ("NULL", "VOID"):
            raise refuse(
                self._place(name),
                worded("{name} is reserved and cannot be defined", name=name.text),
                worded("Choose another name."),
            )
        if "." in _bare(name.text):
            raise refuse(
                self._place(name),
                worded("{name} cannot be defined: its name has a dot", name=name.text),
                worded("Define rules by their short name."),
            )
        self._pass("=")
        body = self._alternatives()
        self._pass(";")
        return Rule(_bare(name.text), body, public, self._place(name))

    def _alternatives(self) -> Expansion:
        weighted = [self._alternative()]
        while self._next.kind == "|":
            self._take()
            weighted.append(self._alternative())
        options = tuple(option for _, option in weighted)
        if all(weight is None for weight, _ in weighted):
            return options[0] if len(options) == 1 else Choice(options)
        return Choice(options, tuple(1.0 if weight is None else weight for weight, _ in weighted))

    def _alternative(self) -> tuple[float | None, Expansion]:
        weight = float(self._take().text.strip("/ \tfF")) if self._next.kind == "weight" else None
        return weight, self._sequence()

    def _sequence(self) -> Expansion:
        parts = [self._item()]
        while self._next.kind in _ITEM:
            parts.append(self._item())
        return parts[0] if len(parts) == 1 else Sequence(tuple(parts))

    def _item(self) -> Expansion:
        item = self._atom()
        while True:
            match self._next.kind:
                case "*":
                    item = Repeat(item, 0)
                case "+":
                    item = Repeat(item, 1)
                case "tag":
                    item = Tagged(item, _unescaped(self._next.text[1:-1]).strip())
                case _:
                    return item
            self._take()

    def _atom(self) -> Expansion:
        if self._next.kind not in _ITEM:
            raise self._unexpected(worded("a word, a <rule>, a “quoted token”, “(” or “[”"))
        begun = self._take()
        match begun.kind:
            case "token":
                return Word(begun.text, (begun.text.casefold(),), self._place(begun))
            case "quoted":
                return self._quoted(begun)
            case "rule":
                return self._reference(begun)
            case "(":
                group = self._alternatives()
                self._pass(")")
                return group
            case _:
                body = self._alternatives()
                self._pass("]")
                return optional(body)

    def _quoted(self, lexeme: Lexeme) -> Word:
        words = _unescaped(lexeme.text[1:-1]).split()
        if not words:
            raise refuse(
                self._place(lexeme), worded("this quoted token is empty"), worded("Write <NULL> for nothing.")
            )
        return Word(" ".join(words), tuple(word.casefold() for word in words), self._place(lexeme))

    def _reference(self, lexeme: Lexeme) -> Expansion:
        match _bare(lexeme.text):
            case "NULL":
                return Null()
            case "VOID":
                return Void()
            case rule if rule.endswith("*"):
                raise refuse(
                    self._place(lexeme),
                    worded("{name} is not one rule", name=lexeme.text),
                    worded("Name the rule; .* is for imports."),
                )
            case rule:
                return Reference(rule, self._place(lexeme))

    def _called(self) -> Lexeme:
        """The name of a rule."""
        if self._next.kind != "rule":
            raise self._unexpected(worded("a <rule>"))
        return self._take()

    def _has(self, word: str) -> bool:
        """Take this word, if it comes next."""
        has = self._next.kind == "token" and self._next.text == word
        if has:
            self._take()
        return has

    def _pass(self, sign: str) -> None:
        if self._next.kind != sign:
            raise self._unexpected(f"“{sign}”")
        self._take()

    def _take(self) -> Lexeme:
        taken = self._next
        if taken.kind != END:
            self._next = next(self._lexemes)
        return taken

    def _unexpected(self, awaited: str) -> GrammarError:
        return unexpected(self._next, self._place(self._next), awaited)

    def _place(self, lexeme: Lexeme) -> Place:
        return Place(self._file, lexeme.line, lexeme.column)


def _bare(name: str) -> str:
    return name.strip("<> \t")


def _unescaped(text: str) -> str:
    return re.sub(r"\\(.)", r"\1", text, flags=re.DOTALL)
