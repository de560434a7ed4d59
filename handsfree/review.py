"""A checklist looked over before it is used: what is unclear, and what sounds alike to a recogniser."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from handsfree.care.checklist import Checklist
from handsfree.care.remarks import Remark, remarks
from handsfree.care.rules import Mode, commands
from handsfree.care.vocabulary import vocabulary
from handsfree.hear.pronunciation import pronunciations
from handsfree.lexicon import Lexicon
from handsfree.phrases.likeness import Alike, Said, alike
from handsfree.ports import Ear
from handsfree.wiring import read_shipped, sounds
from handsfree.words import worded

WAYS = 40
"""So many of a rule's shortest sentences are compared; longer ones differ in more."""

FEW_WAYS = 2
"""Whoever has gloves on and looks elsewhere says it another way (common practice, no source)."""

Sentences = Mapping[str, tuple[Said, ...]]


def review(checklist: Checklist, ear: Ear) -> tuple[Remark, ...]:
    """Everything to think about before the checklist is used, in the order of its steps.

    Raises ChecklistError, GrammarError, UnknownWord for what cannot be used at all.
    """
    lexicon = Lexicon(vocabulary(checklist), read_shipped, ear.knows, sounds())
    own = {name: lexicon.ways(name, WAYS) for name in _own_words(checklist)}
    found = [*remarks(checklist), *_ways(own, checklist), *_alike(own, lexicon, checklist)]
    order = [*(step.name for step in checklist.steps), *(one.name for one in checklist.findings)]
    return tuple(sorted(found, key=lambda remark: order.index(remark.name)))


def _own_words(checklist: Checklist, phase: str = "") -> tuple[str, ...]:
    """Names of the steps and findings, of one phase or of all, that have words of their own."""
    steps = (one.name for one in checklist.steps if one.say and phase in ("", one.phase))
    findings = (one.name for one in checklist.findings if phase in ("", one.phase))
    return (*steps, *findings)


def _ways(own: Sentences, checklist: Checklist) -> Iterator[Remark]:
    for step in (step for step in checklist.steps if step.say):
        said = own[step.name]
        if len(said) < FEW_WAYS:
            one = worded("can only be said as “{sentence}”: add other ways.", sentence=" ".join(said[0]))
            yield Remark("step", step.name, one)
        lone = [" ".join(words) for words in said if len(words) == 1]
        if step.critical and lone:
            word = ", ".join(f"“{word}”" for word in lone)
            one = worded("is critical, and closed by one word, {word}: talk nearby may hold it.", word=word)
            yield Remark("step", step.name, one)


def _alike(own: Sentences, lexicon: Lexicon, checklist: Checklist) -> Iterator[Remark]:
    """Of the rules of one phase, of emergencies and of commands, which can be taken for each other."""
    always = {name: lexicon.ways(name, WAYS) for name in commands(Mode.WALKING)}
    always |= {one.name: lexicon.ways(one.name, WAYS) for one in checklist.emergencies}
    words = {word for rules in (own, always) for said in rules.values() for one in said for word in one}
    pronounced = pronunciations(words)
    for phase in checklist.phases:
        here = {name: own[name] for name in _own_words(checklist, phase.name)}
        for pair in alike(here, always, pronounced):
            kind = "finding" if checklist.finding(pair.rule) else "step"
            yield Remark(kind, pair.rule, _told(pair))


def _told(pair: Alike) -> str:
    match pair.apart:
        case 0:
            apart = worded("the same sound")
        case 1:
            apart = worded("1 sound apart")
        case number:
            apart = worded("{number} sounds apart", number=number)
    ours, other = " ".join(pair.said), " ".join(pair.other_said)
    return worded(
        "may be taken for {name}: “{ours}” and “{other}” are {apart}.",
        name=pair.other_rule,
        ours=ours,
        other=other,
        apart=apart,
    )
