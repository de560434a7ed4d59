"""How compiling grows with the grammar, and how soon an ear hears with the next one.

    python -m pytest tests/bench/bench_grammar.py -s

Times are of the processor, so that other programs don't count; ratios mean the same on every machine.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from time import process_time
from typing import cast

import pytest

from handsfree.care.vocabulary import vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.phrases.spelling import knows_all
from handsfree.signals import Listen
from handsfree.testing.dialogue import talk
from handsfree.wiring import read_shipped, sounds
from tests.dialogues import WHOLE, lexicon, shipped
from tests.voice import moments

DIGIT = "<d> = zero | one | two | three | four | five | six | seven | eight | nine;"
SLOTS = 4
SOME_THOUSAND = 5000


def seconds(work: Callable[[], object]) -> float:
    """Processor time of the quickest of three runs."""
    times = []
    for _ in range(3):
        began = process_time()
        work()
        times.append(process_time() - began)
    return min(times)


def digits(count: int) -> str:
    """A grammar of ten to the power of `count` sentences in eleven words."""
    return f"#JSGF V1.0;\ngrammar g;\npublic <number> = {'<d> ' * count};\n{DIGIT}"


def slots(words: int) -> str:
    """Four slots with different words in each: the number of pairs grows with the square of `words`."""
    choices = (" | ".join(f"w{slot}x{word}" for word in range(words)) for slot in range(SLOTS))
    return f"#JSGF V1.0;\ngrammar g;\npublic <command> = {' '.join(f'({one})' for one in choices)};"


def phrases(text: str) -> tuple[str, ...]:
    """From the text to phrases ready for the ear."""
    return compile_grammar(read_grammar(text, "g.jsgf")).phrases()


def test_ten_million_sentences_against_ten_thousand() -> None:
    """A thousand times as many sentences take less than five times as long."""
    ratio = seconds(lambda: phrases(digits(7))) / seconds(lambda: phrases(digits(4)))
    print(f"ten million sentences over ten thousand: {ratio:.2f}")
    assert ratio < 5


@pytest.mark.parametrize("text", [digits(7), slots(57)], ids=["ten words", "228 words"])
def test_ten_million_sentences(text: str) -> None:
    """Ten million sentences are read and covered in under a second, by at most some thousand phrases."""
    took = seconds(lambda: phrases(text))
    print(f"ten million sentences: {1000 * took:.0f} ms, {len(phrases(text))} phrases")
    assert took < 1
    assert len(phrases(text)) < SOME_THOUSAND


def test_every_phase_at_once() -> None:
    """All that the shipped checklist lets people say, 46,000 pairs of words: the same."""
    grammars = [
        Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds()).grammar(moments.of_all())
        for _ in "123"
    ]
    took = seconds(lambda: grammars.pop().phrases())
    print(f"every phase at once: {1000 * took:.0f} ms")
    assert took < 1


class _Watched:
    """A lexicon that remembers what was said to be allowed."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._lexicon = lexicon
        self.moments: dict[Listen, None] = {}

    def grammar(self, listen: Listen) -> Grammar:
        self.moments[replace(listen, asks="", uncalled=())] = None
        return self._lexicon.grammar(listen)

    def __getattr__(self, name: str) -> object:
        return getattr(self._lexicon, name)


def of_a_session() -> tuple[Listen, ...]:
    """Every moment of a whole session of the shipped checklist, in order."""
    watched = _Watched(lexicon())
    talk(WHOLE, shipped(), cast(Lexicon, watched))
    return tuple(watched.moments)


@pytest.mark.vosk
def test_swapping(vosk_model: Path) -> None:
    """From a moment that was prepared to an ear that hears it: under 50 ms, all through a session."""
    from handsfree.hear.vosk_ear import VoskEar

    ear = VoskEar(vosk_model)
    new = Lexicon(vocabulary(shipped()), read_shipped, ear.knows, sounds())
    ear.listen(new.grammar(Listen(())))  # Vosk reads parts of its model when they are first used
    prepared, swapped = [], []
    for moment in of_a_session():
        began = process_time()
        new.prepare([moment])
        ready = process_time()
        ear.listen(new.sentences(moment))
        prepared.append(1000 * (ready - began))
        swapped.append(1000 * (process_time() - ready))
    print(f"{len(swapped)} moments: at most {max(prepared):.0f} ms to prepare, {max(swapped):.0f} ms to swap")
    assert max(swapped) < 50
