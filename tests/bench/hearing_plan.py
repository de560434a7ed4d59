"""What the corpus of the hearing benchmark is made of: which voice says what, from fixed seeds."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, cycle, islice
from pathlib import Path
from random import Random

from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_prose as prose
from tests.bench import hearing_voices as voices
from tests.bench.hearing_sentences import drawn

PORTIONS = {
    "garden": (300, 500),
    "own": (300, 600),
    "workshop": (200, 760),
    "warehouse": (200, 760),
    "radio": (200, 760),
}
"""Sentences of each field: of a first portion, and in all."""

OTHER_FILES = {"tune": 20, "report": 56}
"""Files of other speech, of one to two minutes."""

_SLOW = "kokoro"
"""A synthesiser that takes as long as it speaks."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A file that belongs into the corpus.

    grammar, rule, sentence: as in its manifest; for other speech, rule is the kind and number tells files of
    a split apart.
    """

    split: str
    voice: str
    grammar: str
    rule: str
    sentence: str
    number: int = 0

    @property
    def field(self) -> str:
        """The field its grammar belongs to; empty for other speech."""
        return Path(self.grammar).stem if self.grammar.endswith(".jsgf") else grammars.field(self.grammar)

    @property
    def file(self) -> str:
        """Its path below the corpus."""
        text = f"{self.grammar}|{self.sentence}" if self.sentence else f"{self.split}|{self.number}"
        folder = "sentences" if self.sentence else "other"
        return f"{folder}/{self.voice}/{hashlib.sha256(text.encode()).hexdigest()[:16]}.wav"


def plan() -> list[Planned]:
    """All files in the order in which they are made: what is soon made first."""
    files = chain(_portion(0), _portion(1), _other())
    return sorted(files, key=lambda one: one.voice.startswith(_SLOW))


def _portion(number: int) -> Iterator[Planned]:
    for field, sizes in PORTIONS.items():
        yield from islice(_field(field), sizes[number - 1] if number else 0, sizes[number])


def _field(field: str) -> Iterator[Planned]:
    """Endless sentences of a field, no voice saying the same twice."""
    split, spoken = ("tune", voices.TUNE) if field in grammars.TUNE else ("report", voices.REPORT)
    names = grammars.own() if field == "own" else (field,)
    commands = cycle([(name, drawn(grammars.compiled(name), name)) for name in names])
    turns, seen = _shuffled(tuple(spoken), field), set[tuple[str, str]]()
    for name, sentences in commands:
        rule, sentence = next(sentences)
        voice = next(turns)
        if (sentence, voice) not in seen:
            seen.add((sentence, voice))
            path = name if field == "own" else f"tests/bench/grammars/{field}.jsgf"
            yield Planned(split, voice, path, rule, sentence)


def _shuffled(names: tuple[str, ...], seed: str) -> Iterator[str]:
    """All names in an order by chance, then all again in another."""
    random = Random(seed)
    while True:
        yield from random.sample(names, len(names))


def _other() -> Iterator[Planned]:
    """Files of other speech: every voice says something of every kind in turn."""
    for split, most in OTHER_FILES.items():
        spoken = tuple(voices.TUNE if split == "tune" else voices.REPORT)
        for number in range(most):
            turn, kind = divmod(number, len(prose.KINDS))
            yield Planned(split, spoken[turn % len(spoken)], "", prose.KINDS[kind], "", number)
