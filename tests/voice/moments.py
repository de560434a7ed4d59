"""The grammars that the fixtures are heard with: what can be said in one phase of the shipped checklist, or
in all of them at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path

from handsfree.care.checklist import Checklist, Step
from handsfree.care.checklist_file import read_checklist
from handsfree.care.rules import Mode, commands
from handsfree.care.values import KINDS
from handsfree.care.vocabulary import vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.spelling import Knows, knows_all, read_sounds
from handsfree.ports import Sentences
from handsfree.signals import Listen

ROOT = Path(__file__).parents[2]
_LISTS = ROOT / "handsfree" / "checklists"
_SOUNDS = ROOT / "handsfree" / "phrases" / "sounds_like.toml"

_CLOSING = {"correct": Mode.CONFIRMING, "end": Mode.WALKING, "end_it": Mode.ENDING}
"""By clip that answers no step: the mode in which it is played."""


_NOT_YET = frozenset(
    (
        *("reminded", "later", "not_needed", "level", "bag_asked", "bag_changed", "tubing_changed"),
        *("follow_up", "use_that"),
        *("beat", "beat_off", "faster", "slower", "count_drops", "just_drops"),
    )
)
"""Commands that a session opens once there is a bag, a set, a reminder, a count, or an answered question
(`care/listening.py`): before that they cannot be heard."""


_LONG = ("question", "bare_question", "count")
"""Questions of numbers: PocketSphinx is not given them, and Vosk has a test of its own for them."""


@cache
def checklist() -> Checklist:
    """The shipped checklist."""
    name = "peripheral_iv.toml"
    return read_checklist(_text(_LISTS / name), name, _text(_LISTS / "emergencies.toml"))


def of_phase(name: str, question: str = "", mode: Mode = Mode.WALKING) -> Listen:
    """What may be said in this phase, with the bare answers to the question that is open."""
    findings = (one.name for one in checklist().findings if one.phase == name)
    bare = _bare(checklist().step(question)) if question else ()
    emergencies = (one.name for one in checklist().emergencies)
    reached = (step for step in checklist().steps if step.phase == name or step.anytime)
    rules = (rule for rule in commands(mode) if rule not in (*_NOT_YET, *_LONG))
    return Listen((*rules, *emergencies, *findings, *bare), _rules(reached))


def of_all() -> Listen:
    """What may be said if every phase were open at once: the hardest moment to hear well in."""
    others = (one.name for one in (*checklist().findings, *checklist().emergencies))
    rules = dict.fromkeys((*commands(Mode.WALKING), *commands(Mode.CONFIRMING), *others))
    heard = (rule for rule in rules if rule not in (*_LONG, "follow_up", "use_that", "just_drops"))
    return Listen(tuple(heard), _rules(step for step in checklist().steps if step.value != ("bag_fluid",)))


def with_questions(moment: Listen) -> Listen:
    """The same moment with questions about numbers, as a session on Vosk has it."""
    return replace(moment, rules=(*moment.rules, *_LONG))


def of_words(words: str) -> Listen:
    """What may be said in the first phase that has this sentence, confirming included; where none has it, as
    with a refusal, in the phase of the equipment."""
    moments = [of_phase(name) for name in dict.fromkeys(step.phase for step in checklist().steps)]
    moments.append(of_phase("order", mode=Mode.CONFIRMING))
    sentence = tuple(words.split())
    return next((one for one in moments if compiled(one).match(sentence)), of_phase("equipment"))


def of_clip(name: str) -> Listen:
    """What may be said when the clip of this name is played in a session."""
    if name == "end_it":
        return Listen((*commands(Mode.ENDING), *(one.name for one in checklist().emergencies)))
    if name in _CLOSING:
        return of_phase("order", mode=_CLOSING[name])
    step = checklist().step(name)
    return of_phase(step.phase, name)


@cache
def compiled(listen: Listen, knows: Knows = knows_all) -> Grammar:
    """The grammar of one moment, spelled for an ear that knows these words."""
    return _lexicon(knows).grammar(listen)


def listened(listen: Listen, knows: Knows) -> Sentences:
    """The same moment as an ear is given it in a session."""
    return _lexicon(knows).sentences(listen)


@cache
def _lexicon(knows: Knows) -> Lexicon:
    sounds = read_sounds(_text(_SOUNDS), _SOUNDS.name)
    return Lexicon(
        vocabulary(checklist()), lambda name: _text(ROOT / "grammars" / f"{name}.jsgf"), knows, sounds
    )


def _rules(steps: Iterable[Step]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(rule for step in steps for rule in step.rules))


def _bare(step: Step) -> Iterable[str]:
    return (KINDS[kind].bare for kind in step.value if kind in KINDS and KINDS[kind].bare)


def _text(file: Path) -> str:
    return file.read_text("utf-8")
