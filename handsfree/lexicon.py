"""The grammars of a session: what a checklist and the shipped files let people say, ready for an ear."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property, partial

from handsfree.care.checklist_lines import line_of
from handsfree.care.rules import QUESTIONS
from handsfree.care.values import KINDS
from handsfree.care.vocabulary import Vocabulary
from handsfree.errors import ChecklistError, GrammarError, UnknownWord
from handsfree.phrases.calling import Call, refuse_like_commands
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.help import examples
from handsfree.phrases.joined import Joined
from handsfree.phrases.link import read_library
from handsfree.phrases.moment import moment
from handsfree.phrases.talk import Talk
from handsfree.phrases.tree import Rules
from handsfree.ports import Sentences
from handsfree.signals import Listen
from handsfree.words import worded

BETWEEN = "between"
"""The grammar of the common words that may stand between what is listened for."""


class OnDemand(Mapping[str, str]):
    """A mapping that is made when it is looked into for the first time."""

    def __init__(self, make: Callable[[], Mapping[str, str]]) -> None:
        self._make = make

    @cached_property
    def _made(self) -> Mapping[str, str]:
        return self._make()

    def __getitem__(self, name: str) -> str:
        return self._made[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._made)

    def __len__(self) -> int:
        return len(self._made)


class Lexicon:
    """Compiles what may be said now, once for each moment.

    words: of a checklist. read: text of a shipped grammar by name. knows: whether the ear can hear a word.
    sounds: the table of sounds-like spellings. Raises ChecklistError by file and line for words of the
    checklist that are no JSGF, or that the ear does not know, WrongUse for a call word that sounds like a
    command.
    """

    def __init__(
        self,
        words: Vocabulary,
        read: Callable[[str], str],
        knows: Callable[[str], bool],
        sounds: Mapping[str, tuple[str, ...]],
        call_word: str = "",
    ) -> None:
        self._words, self._knows, self._sounds, self._call_word = words, knows, sounds, call_word
        texts = {one.checklist.name: one.text for one in words.every}
        self._read = lambda name: texts[name] if name in texts else read(name)
        self._ready: dict[Listen, Grammar] = {}
        self._listened: dict[tuple[Grammar, bool], Sentences] = {}
        self._examples: dict[str, Mapping[str, str]] = {}
        self._check_values()
        self._library, self._whole = self._checked()
        self._views = {one.checklist.name: self._view(one) for one in words.every}
        self._call = self._checked_call()

    def grammar(self, listen: Listen) -> Grammar:
        """The grammar of a moment; where it is loose, of its sentences alone."""
        key = replace(listen, asks="", loose=False, uncalled=listen.uncalled if self._call else ())
        if key not in self._ready:
            rules = moment(self._views[self._of(listen)], listen, self._call_word)
            self._ready[key] = self._compiled(rules, self._whole)
        return self._ready[key]

    def sentences(self, listen: Listen) -> Sentences:
        """What an ear listens for at a moment: where it is loose, talk in which the sentences may stand."""
        strict = self.grammar(listen)
        # The same moment is the same object: an ear swaps grammars only for another one.
        key = (strict, listen.loose)
        if key not in self._listened:
            self._listened[key] = Talk(strict, sorted(self.common)) if listen.loose else self._joined(listen)
        return self._listened[key]

    def _joined(self, listen: Listen) -> Sentences:
        """All sentences of a moment; questions, many and the same at most moments, for themselves."""
        whole, asked = self.grammar(listen), tuple(rule for rule in listen.rules if rule in QUESTIONS)
        others = tuple(rule for rule in listen.rules if rule not in asked)
        if not asked or not (others or listen.answers):
            return whole
        own, asides = replace(listen, rules=others), replace(listen, rules=asked, answers=())
        return Joined(whole, partial(self.grammar, own), partial(self.grammar, asides))

    @cached_property
    def common(self) -> frozenset[str]:
        """The common words that the ear knows."""
        words = compile_grammar(read_library([BETWEEN], self._read)).words
        return frozenset(filter(self._knows, words))

    def prepare(self, moments: Iterable[Listen]) -> None:
        """Make the grammars of moments that may come, and their phrases, so that an ear need not wait."""
        for listen in moments:
            sentences = self.sentences(listen)
            sentences.phrases()
            sentences.opposites()

    @property
    def calls(self) -> bool:
        """Whether there is a call word."""
        return self._call is not None

    def is_called(self, words: tuple[str, ...]) -> bool:
        """Whether words in the ear's spelling begin with the call word; always where there is none."""
        return self._call is None or self._call.begins(words)

    def rules_of(self, words: tuple[str, ...]) -> tuple[str, ...]:
        """The rules of which the ear's words are a sentence, each at some moment."""
        return tuple(node.rule for node in self._whole.match(words))

    def examples(self, listen: Listen) -> Mapping[str, str]:
        """By rule: one sentence that can be said at that moment."""
        name = self._of(listen)
        if name not in self._examples:
            self._examples[name] = examples(self._views[name])
        known = self._examples[name]
        return {rule: known[rule] for rule in (*listen.rules, *listen.answers) if rule in known}

    def _of(self, listen: Listen) -> str:
        """Whose rules a moment names: those of the session's own checklist where it does not say."""
        return listen.grammar or self._words.checklist.name

    def _view(self, words: Vocabulary) -> Rules:
        """What can be said while a checklist is at hand: its words, the shipped ones, and those that begin
        the others. Their own rules may be called the same."""
        own = (words.checklist.name, *words.shipped)
        begins = {f"{one.checklist.name}.{one.checklist.name}" for one in self._words.others}

        def seen(name: str) -> bool:
            return name.rpartition(".")[0] in own or name in begins

        by_name = {name: rule for name, rule in self._library.by_name.items() if seen(name)}
        return Rules(by_name, tuple(filter(seen, self._library.public)))

    def ways(self, rule: str, most: int) -> tuple[tuple[str, ...], ...]:
        """The shortest sentences of one rule, as the ear spells them."""
        own = self._views[self._words.checklist.name]
        alone = Rules(own.by_name, (own.find(rule),))
        return tuple(self._compiled(alone, self._whole).sentences(most))

    def _checked(self) -> tuple[Rules, Grammar]:
        """All rules, and the grammar of all over which those of the moments are compiled.

        The ear can hear each of their words: nothing is to be found out half-way.
        """
        try:
            lists = [one.checklist.name for one in self._words.every]
            library = read_library([*lists, *self._words.shipped], self._read)
            self._refuse_taken_names(library)
            return library, self._compiled(library)
        except (GrammarError, UnknownWord) as fault:
            raise self._placed(fault) from None

    def _refuse_taken_names(self, library: Rules) -> None:
        """A step that is called as a rule of the shipped grammars could not be told from it."""
        for words in self._words.every:
            for kind, name in words.owners:
                called = name or words.checklist.name
                ours = f"{words.checklist.name}.{called}" in library.by_name
                taken = any(f"{shipped}.{called}" in library.by_name for shipped in words.shipped)
                if kind and ours and taken:
                    wrong = worded("the name {name} is taken.", name=called)
                    raise self._fault(words, kind, name, wrong, worded("Choose another name."))

    def _compiled(self, rules: Rules, base: Grammar | None = None) -> Grammar:
        return compile_grammar(rules, knows=self._knows, sounds=self._sounds, base=base)

    def _checked_call(self) -> Call | None:
        if not self._call_word.split():
            return None
        refuse_like_commands(self._call_word, self._library)
        return Call(self._call_word, self._knows, self._sounds)

    def _placed(self, fault: GrammarError | UnknownWord) -> GrammarError | UnknownWord | ChecklistError:
        """The fault at its line of the checklist, where it stands there."""
        of = next((one for one in self._words.every if f"{one.checklist.name}.jsgf" == fault.file), None)
        if of is None or not 1 <= fault.line <= len(of.owners):
            return fault
        kind, name = of.owners[fault.line - 1]
        wrong = str(fault.wrong).split(": ", 1)[-1]
        wrong = worded("the words of {what}: {wrong}", what=f"{kind} {name}".rstrip(), wrong=wrong)
        return self._fault(of, kind, name, wrong, fault.next_step)

    def _check_values(self) -> None:
        for words in self._words.every:
            for step in words.checklist.steps:
                unknown = next((kind for kind in step.value if kind not in KINDS), "")
                if unknown:
                    known = worded("Take one of: {kinds}.", kinds=", ".join(KINDS))
                    wrong = worded("the value {value} is not known.", value=unknown)
                    raise self._fault(words, "step", step.name, wrong, known)

    def _fault(self, words: Vocabulary, kind: str, name: str, wrong: str, next_step: str) -> ChecklistError:
        """An error at the table in which the words stand; an emergency may stand in another checklist."""
        lists = [words.checklist, *(one.checklist for one in self._words.every)]
        at = next((one for one in lists if line_of(one.text, kind, name)), lists[0])
        return at.fault(line_of(at.text, kind, name), wrong, next_step)
