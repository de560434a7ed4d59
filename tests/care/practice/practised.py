"""Practice runs in few words: what is said, and under which terms."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from handsfree.care.checklist import Checklist
from handsfree.care.practice.terms import Level, Telling, Terms
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.testing.dialogue import Talk, talk
from handsfree.wiring import read_shipped, sounds
from tests.care.practice.rub_runs import hand_rub
from tests.dialogues import shipped


@cache
def words(of: Callable[[], Checklist] = shipped) -> Lexicon:
    return Lexicon(practice_vocabulary(of()), read_shipped, knows_all, sounds())


def rubbed(
    *script: str,
    level: Level = Level.SILENT,
    telling: Telling = Telling.AT_ONCE,
    faults: tuple[str, ...] = (),
) -> Talk:
    """Run lines on the hand rub of docs/practice.md."""
    terms = Terms("", level, telling, faults)
    return talk(script, hand_rub(), words(hand_rub), kind="practice", terms=terms)


def cannulated(*script: str, faults: tuple[str, ...] = ()) -> Talk:
    """Run lines on the shipped checklist."""
    return talk(script, shipped(), words(), kind="practice", terms=Terms(faults=faults))
