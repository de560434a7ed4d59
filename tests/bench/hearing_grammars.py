"""The grammars of the hearing benchmark: four of other fields, and the program's own, phase by phase.

A grammar goes by name: that of a file in `grammars/`, or `own:PHASE`, `own:PHASE:STEP` (with the
question of that step open) and `own:PHASE::MODE`.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from handsfree.care.rules import Mode
from handsfree.cli.grammar_files import read_grammar_file
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.spelling import Knows, knows_all
from handsfree.phrases.tree import Reference, Rule, Rules, Sequence, Word, short
from handsfree.wiring import sounds
from tests.voice import moments

FOLDER = Path(__file__).parent / "grammars"

TUNE = ("garden", "own")
REPORT = ("workshop", "warehouse", "radio")
"""No sentence of these is heard while thresholds are chosen."""


def own() -> tuple[str, ...]:
    """Names of the program's own moments: every phase, every open question, and the confirming."""
    steps = moments.checklist().steps
    phases = dict.fromkeys(f"own:{step.phase}" for step in steps)
    questions = dict.fromkeys(f"own:{step.phase}:{step.name}" for step in steps if step.value)
    return (*phases, *questions, "own:order::confirming")


def field(name: str) -> str:
    """The field that a grammar belongs to: its name, or `own`."""
    return name.partition(":")[0]


@cache
def compiled(name: str, knows: Knows = knows_all, call: str = "") -> Grammar:
    """The grammar of this name, spelled for an ear that knows these words.

    call: a word that has to come before each command. Raises UnknownWord, KeyError.
    """
    if field(name) != "own":
        rules = read_grammar_file(FOLDER / f"{name}.jsgf")
        return compile_grammar(_called(rules, call), knows=knows, sounds=sounds())
    _, phase, question, mode = (*name.split(":"), "", "")[:4]
    listen = moments.of_phase(phase, question, Mode(mode) if mode else Mode.WALKING)
    if not call:
        return moments.compiled(listen, knows)
    return Grammar(_called(moments.compiled(listen, knows).rules, call), knows=knows)


def holds(name: str, sentence: str) -> bool:
    """Whether it is a sentence of this grammar now: the program's own change, and a corpus is older."""
    try:
        return bool(compiled(name).match(tuple(sentence.split())))
    except KeyError:
        return False


def _called(rules: Rules, call: str) -> Rules:
    """The same commands, each behind a call word."""
    if not call:
        return rules
    word = Word(call, (call,))
    called = {
        f"called.{short(name)}": Rule(f"called.{short(name)}", Sequence((word, Reference(name))), public=True)
        for name in rules.public
    }
    return Rules({**rules.by_name, **called}, tuple(called))
