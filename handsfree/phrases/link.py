"""Brings a grammar and its imports together into one set of rules with full names."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from handsfree.errors import GrammarError
from handsfree.phrases import recursion
from handsfree.phrases.jsgf import Import, Source, parse
from handsfree.phrases.refusal import refuse
from handsfree.phrases.tree import NOWHERE, Expansion, Place, Reference, Rule, Rules, children, rebuilt, short
from handsfree.words import worded

Read = Callable[[str], str]
"""Gives the text of the grammar of this full name. Raises LookupError or OSError where there is none."""


def _nothing(name: str) -> str:
    raise LookupError(name)


def read_grammar(text: str, file: str, read: Read = _nothing) -> Rules:
    """Read a grammar and what it imports. file: its name, for messages. Raises GrammarError.

    read: without it the grammar stands alone.
    """
    main = parse(text, file)
    return _Linker(read, main).rules(main)


def read_library(names: Iterable[str], read: Read) -> Rules:
    """Read several grammars by full name as one set, with all their public rules. Raises GrammarError."""
    linker = _Linker(read)
    return linker.rules(*(linker.source(name, NOWHERE) for name in names))


class _Linker:
    """Holds every grammar read so far, each by its full name."""

    def __init__(self, read: Read, *sources: Source) -> None:
        self._read = read
        self._sources = {source.name: source for source in sources}
        self._rules: dict[str, dict[str, Rule]] = {}

    def rules(self, *mains: Source) -> Rules:
        """Everything linked and checked; the public rules are those of the main grammars."""
        linked: dict[str, Rule] = {}
        waiting = list(mains)
        while waiting:
            source = waiting.pop()
            for short_name, rule in self._of(source).items():
                name = f"{source.name}.{short_name}"
                linked[name] = replace(rule, name=name, body=self._linked(rule.body, source))
            for one in source.imports:
                self._imported(one)
            waiting = [one for one in self._sources.values() if one.name not in self._rules]
        public = tuple(f"{main.name}.{rule.name}" for main in mains for rule in main.rules if rule.public)
        if not public:
            step = worded("Write “public” before a rule that can be said.")
            raise refuse(Place(mains[0].file, 1), worded("this grammar has no public rule"), step)
        rules = Rules(linked, public)
        recursion.check(rules)
        return rules

    def _of(self, source: Source) -> dict[str, Rule]:
        """The source's own rules by short name."""
        if source.name not in self._rules:
            own: dict[str, Rule] = {}
            for rule in source.rules:
                if rule.name in own:
                    wrong = worded(
                        "<{name}> is defined twice, first in line {line}",
                        name=rule.name,
                        line=own[rule.name].place.line,
                    )
                    raise refuse(rule.place, wrong, worded("Rename one of them."))
                own[rule.name] = rule
            self._rules[source.name] = own
        return self._rules[source.name]

    def source(self, name: str, place: Place) -> Source:
        """The grammar of this full name. place: where it is asked for."""
        if name not in self._sources:
            try:
                text = self._read(name)
            except (LookupError, OSError):
                step = worded("Put {name}.jsgf into the same folder.", name=short(name))
                raise refuse(place, worded("there is no grammar {name}", name=name), step) from None
            source = parse(text, f"{short(name)}.jsgf")
            if source.name != name:
                names = {"file": source.file, "name": name, "own": source.name}
                step = worded("Write “grammar {name};” there, or import {own}.", **names)
                raise refuse(place, worded("{file} calls itself {own}, not {name}", **names), step)
            self._sources[name] = source
        return self._sources[name]

    def _imported(self, one: Import) -> dict[str, str]:
        """What an import brings: short names to full ones."""
        source = self.source(one.grammar, one.place)
        public = {rule.name: f"{source.name}.{rule.name}" for rule in source.rules if rule.public}
        if one.rule == "*":
            return public
        if one.rule not in public:
            known = ", ".join(public) or worded("none")
            step = worded("Make it public there, or import one of: {known}.", known=known)
            wrong = worded("{file} has no public rule <{rule}>", file=source.file, rule=one.rule)
            raise refuse(one.place, wrong, step)
        return {one.rule: public[one.rule]}

    def _linked(self, expansion: Expansion, source: Source) -> Expansion:
        if isinstance(expansion, Reference):
            return replace(expansion, rule=self._full(expansion, source))
        return rebuilt(expansion, (self._linked(child, source) for child in children(expansion)))

    def _full(self, ref: Reference, source: Source) -> str:
        """Full name of the rule meant; a local rule goes before an imported one."""
        grammar, _, name = ref.rule.rpartition(".")
        if grammar in ("", source.name, short(source.name)) and name in self._of(source):
            return f"{source.name}.{name}"
        found = {
            full
            for one in source.imports
            if grammar in ("", one.grammar, short(one.grammar))
            for rule, full in self._imported(one).items()
            if rule == name
        } or set(self._unimported(grammar, name, ref, source))
        if len(found) > 1:
            step = worded("Write one of: {names}.", names=", ".join(f"<{full}>" for full in sorted(found)))
            wrong = worded("<{rule}> can mean more than one imported rule", rule=ref.rule)
            raise refuse(ref.place, wrong, step)
        if not found:
            raise self._undefined(ref, source)
        return found.pop()

    def _unimported(self, grammar: str, name: str, ref: Reference, source: Source) -> Iterator[str]:
        """A fully-qualified name needs no import."""
        if grammar and grammar not in (source.name, short(source.name)):
            yield from self._imported(Import(grammar, name, ref.place)).values()

    def _undefined(self, ref: Reference, source: Source) -> GrammarError:
        near = difflib.get_close_matches(ref.rule, self._of(source), n=1)
        step = worded("Did you mean <{near}>?", near=near[0]) if near else worded("Define it, or import it.")
        return refuse(ref.place, worded("<{rule}> is not defined", rule=ref.rule), step)
