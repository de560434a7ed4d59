"""The grammars of a session: what a checklist and the shipped files let people say, ready for an ear."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from handsfree.care.checklist_file import line_of
from handsfree.care.values import KINDS
from handsfree.care.vocabulary import Vocabulary
from handsfree.errors import ChecklistError, GrammarError, UnknownWord
from handsfree.phrases.calling import Call, refuse_like_commands
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.help import examples
from handsfree.phrases.link import read_library
from handsfree.phrases.moment import moment
from handsfree.phrases.tree import Rules
from handsfree.signals import Listen


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
        self._checklist = words.checklist
        self._read = lambda name: words.text if name == self._checklist.name else read(name)
        self._ready: dict[Listen, Grammar] = {}
        self._check_values()
        self._library, self._whole = self._checked()
        self._examples = examples(self._library)
        self._call = self._checked_call()

    def grammar(self, listen: Listen) -> Grammar:
        """The grammar of a moment."""
        key = replace(listen, asks="", uncalled=listen.uncalled if self._call else ())
        if key not in self._ready:
            rules = moment(self._library, listen, self._call_word)
            self._ready[key] = self._compiled(rules, self._whole)
        return self._ready[key]

    def prepare(self, moments: Iterable[Listen]) -> None:
        """Make the grammars of moments that may come, and their phrases, so that an ear need not wait."""
        for listen in moments:
            self.grammar(listen).phrases()

    @property
    def calls(self) -> bool:
        """Whether there is a call word."""
        return self._call is not None

    def is_called(self, words: tuple[str, ...]) -> bool:
        """Whether words in the ear's spelling begin with the call word; always where there is none."""
        return self._call is None or self._call.begins(words)

    def examples(self, listen: Listen) -> Mapping[str, str]:
        """By rule: one sentence that can be said at that moment."""
        open_now = (*listen.rules, *listen.answers)
        return {rule: self._examples[rule] for rule in open_now if rule in self._examples}

    def ways(self, rule: str, most: int) -> tuple[tuple[str, ...], ...]:
        """The shortest sentences of one rule, as the ear spells them."""
        alone = Rules(self._library.by_name, (self._library.find(rule),))
        return tuple(self._compiled(alone, self._whole).sentences(most))

    def _checked(self) -> tuple[Rules, Grammar]:
        """All rules, and the grammar of all over which those of the moments are compiled.

        The ear can hear each of their words: nothing is to be found out half-way.
        """
        try:
            library = read_library([self._checklist.name, *self._words.shipped], self._read)
            self._refuse_taken_names(library)
            return library, self._compiled(library)
        except (GrammarError, UnknownWord) as fault:
            raise self._placed(fault) from None

    def _refuse_taken_names(self, library: Rules) -> None:
        """A step that is called as a rule of the shipped grammars could not be told from it."""
        for kind, name in self._words.owners:
            if name and any(f"{shipped}.{name}" in library.by_name for shipped in self._words.shipped):
                line = line_of(self._checklist.text, kind, name)
                raise self._checklist.fault(line, f"the name {name} is taken.", "Choose another name.")

    def _compiled(self, rules: Rules, base: Grammar | None = None) -> Grammar:
        return compile_grammar(rules, knows=self._knows, sounds=self._sounds, base=base)

    def _checked_call(self) -> Call | None:
        if not self._call_word.split():
            return None
        refuse_like_commands(self._call_word, self._library)
        return Call(self._call_word, self._knows, self._sounds)

    def _placed(self, fault: GrammarError | UnknownWord) -> GrammarError | UnknownWord | ChecklistError:
        """The fault at its line of the checklist, where it stands there."""
        ours = fault.file.removesuffix(".jsgf") == self._checklist.name
        if not ours or not 1 <= fault.line <= len(self._words.owners):
            return fault
        kind, name = self._words.owners[fault.line - 1]
        wrong = str(fault.wrong).split(": ", 1)[-1]
        line = line_of(self._checklist.text, kind, name)
        return self._checklist.fault(line, f"the words of {kind} {name}: {wrong}", fault.next_step)

    def _check_values(self) -> None:
        for step in self._checklist.steps:
            unknown = next((kind for kind in step.value if kind not in KINDS), "")
            if unknown:
                line = line_of(self._checklist.text, "step", step.name)
                known = f"Take one of: {', '.join(KINDS)}."
                raise self._checklist.fault(line, f"the value {unknown} is not known.", known)
