"""Recorded questions about numbers, heard by Vosk: enough are right, and none is taken for another."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.ears import vosk
from tests.voice.manifest import below
from tests.voice.moments import compiled, of_phase, with_questions
from tests.voice.questions import PHASE, measure, recorded

RECORDED = below("questions")

MOST_BYTES = 2_500_000

FLOORS = {"quiet": 0.6, "white 15": 0.25, "engine 15": 0.5, "wind 15": 0.55}
"""Share that is heard right at least, by condition: what was measured (docs/accuracy.md) with some room."""


def test_enough_of_each() -> None:
    """Sixty recordings and more, of many voices of four synthesisers, small in all; each has a licence."""
    assert len(RECORDED) >= 60
    assert len({one.voice for one in RECORDED}) >= 8
    assert len({one.synthesiser for one in RECORDED}) == 4
    assert all(one.licence for one in RECORDED)
    assert sum(one.path.stat().st_size for one in RECORDED) < MOST_BYTES


def test_each_is_a_question() -> None:
    """With one meaning, where it is asked."""
    grammar = compiled(with_questions(of_phase(PHASE)))
    rules = {one.words: {node.rule for node in grammar.match(tuple(one.words.split()))} for one in RECORDED}
    assert {} == {words: found for words, found in rules.items() if not found or "report" in found}


@pytest.mark.vosk
@pytest.mark.timeout(900)
@pytest.mark.parametrize(("condition", "right"), FLOORS.items(), ids=FLOORS)
def test_none_is_taken_for_another(vosk_model: Path, condition: str, right: float) -> None:
    """In quiet and in three noises at 15 dB: enough give the numbers that were said, and none gives others;
    the rest is asked again. What gave others would wait for "use that" and "correct" before it acts."""
    found = measure(vosk(), recorded(condition), condition)
    assert len([one for one in found if one.verdict == "right"]) / len(found) >= right
    assert [] == [one for one in found if one.verdict == "wrong"]
