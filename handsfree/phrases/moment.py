"""The grammar of one moment: from a library of rules, what may be said now."""

from __future__ import annotations

from collections.abc import Iterable

from handsfree.phrases.tree import (
    Choice,
    Reference,
    Repeat,
    Rule,
    Rules,
    Sequence,
    Word,
    optional,
    references,
    short,
)
from handsfree.signals import REPORT, Listen

GLUE = ("and", "then")
"""Words that may stand between two answers."""


def moment(library: Rules, listen: Listen, call_word: str = "") -> Rules:
    """What `listen` allows: each of its rules alone, and a report of one answer or several.

    A rule that is an answer too is heard only as an answer, so that nothing is said two ways.
    Where `listen` names a rule that leads, it may stand before each that does not use it itself. With a call
    word every sentence begins with that, or may do so, as `listen` says. Raises KeyError for a rule that the
    library lacks.
    """
    answers = tuple(map(library.find, listen.answers))
    alone = [library.by_name[name] for name in map(library.find, listen.rules) if name not in answers]
    spoken = [*alone, _report(answers)] if answers else alone
    if listen.led_by:
        lead = Reference(library.find(listen.led_by))
        spoken = [_led(rule, lead) for rule in spoken]
    if call_word:
        spoken = [_called(rule, call_word, listen.uncalled) for rule in spoken]
    added = {rule.name: rule for rule in spoken}
    return Rules({**library.by_name, **added}, tuple(added))


def _report(answers: Iterable[str]) -> Rule:
    answer = Choice(tuple(map(Reference, answers)))
    glue = Choice(tuple(map(_word, GLUE)))
    more = Repeat(Sequence((optional(glue), answer)), 0)
    return Rule(f"moment.{REPORT}", Sequence((answer, more)), public=True)


def _led(rule: Rule, lead: Reference) -> Rule:
    if lead in references(rule.body):
        return rule
    body = Sequence((optional(lead), rule.body))
    return Rule(f"led.{short(rule.name)}", body, public=True, place=rule.place)


def _called(rule: Rule, call_word: str, uncalled: Iterable[str]) -> Rule:
    name = short(rule.name)
    call = Sequence(tuple(map(_word, call_word.split())))
    body = Sequence((optional(call) if name in uncalled else call, rule.body))
    return Rule(f"called.{name}", body, public=True, place=rule.place)


def _word(text: str) -> Word:
    return Word(text, (text.casefold(),))
