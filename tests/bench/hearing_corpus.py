"""Makes the corpus of the hearing benchmark: python -m tests.bench.hearing --make

What is there already is not made again, so it can be broken off and run once more. Sentences, voices,
rates and levels follow from fixed seeds.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, cycle, islice
from pathlib import Path
from random import Random

import numpy as np
import soundfile

from handsfree.signals import SAMPLE_RATE
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_prose as prose
from tests.bench import hearing_voices as voices
from tests.bench.hearing_edges import edges, trimmed
from tests.bench.hearing_manifest import Clip, append, read
from tests.bench.hearing_noises import babble_file, talkers
from tests.bench.hearing_sentences import drawn
from tests.voice.synthesisers import Sound

PORTIONS = {
    "garden": (300, 500),
    "own": (300, 600),
    "workshop": (200, 510),
    "warehouse": (200, 510),
    "radio": (200, 510),
}
"""Sentences of each field: of a first portion, and in all."""

OTHER_FILES = {"tune": 20, "report": 54}
"""Files of other speech, of 60 to 110 seconds."""

_PEAK_DB = (-18.0, -3.0)
"""Quiet and loud speakers, against full scale."""

_TALKERS = 4

_PAUSE_S = (0.3, 2.0)


@dataclass(frozen=True, slots=True)
class Planned:
    """One sentence to be spoken."""

    split: str
    grammar: str
    rule: str
    sentence: str
    voice: str


def make(corpus: Path) -> None:
    """Make all that is missing: the first portion of sentences, some other speech, then the rest."""
    there = {clip.file for clip in read(corpus)}
    for split in OTHER_FILES:
        _babble(corpus, split)
    for planned in chain(plan(0), plan(1)):
        file = _file("sentences", planned.voice, f"{planned.grammar}|{planned.sentence}")
        if file not in there:
            there.add(file)
            _speak(corpus, file, planned)
    for split, number in ((split, number) for split, most in OTHER_FILES.items() for number in range(most)):
        voice = _other_voice(split, number)
        file = _file("other", voice, f"{split}|{number}")
        if file not in there:
            _talk(corpus, file, split, number)


def _babble(corpus: Path, split: str) -> None:
    """Four people at once; the babble of a split has its own voices and its own sentences."""
    file = babble_file(corpus, split)
    if file.exists():
        return
    talk = prose.sentences("talk", split, f"babble {split}")
    spoken = cycle(voices.BABBLE[split])
    parts = (trimmed(voices.said(voice, sentence)) for voice, sentence in zip(spoken, talk, strict=False))
    corpus.mkdir(parents=True, exist_ok=True)
    soundfile.write(file, talkers(parts, _TALKERS), SAMPLE_RATE, subtype="PCM_16")


def plan(portion: int) -> list[Planned]:
    """The sentences of one portion, slow synthesisers last."""
    found: list[Planned] = []
    for field, sizes in PORTIONS.items():
        begin = sizes[portion - 1] if portion else 0
        found += islice(_field(field), begin, sizes[portion])
    return sorted(found, key=lambda one: one.voice.startswith("kokoro"))


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
            yield Planned(split, path, rule, sentence, voice)


def _shuffled(names: tuple[str, ...], seed: str) -> Iterator[str]:
    """All names in an order by chance, then all again in another."""
    random = Random(seed)
    while True:
        yield from random.sample(names, len(names))


def _speak(corpus: Path, file: str, planned: Planned) -> None:
    sound = trimmed(voices.said(planned.voice, planned.sentence))
    text = planned.sentence
    parts = planned.voice, planned.split, planned.grammar, planned.sentence, planned.rule, text
    _keep(corpus, file, sound, parts)


def _talk(corpus: Path, file: str, split: str, number: int) -> None:
    """A minute or two of one person's talk, with pauses between the sentences."""
    kind, voice, random = prose.KINDS[number % len(prose.KINDS)], _other_voice(split, number), Random(file)
    parts, texts, samples = [], [], 0
    for sentence in prose.sentences(kind, split, file):
        said = trimmed(voices.said(voice, sentence))
        parts += [said, np.zeros(round(random.uniform(*_PAUSE_S) * SAMPLE_RATE), np.float32)]
        texts.append(sentence)
        samples += len(parts[-2]) + len(parts[-1])
        if samples > random.uniform(60, 110) * SAMPLE_RATE:
            break
    _keep(corpus, file, np.concatenate(parts), (voice, split, "", "", kind, ". ".join(texts)))


def _keep(corpus: Path, file: str, sound: Sound, told: tuple[str, str, str, str, str, str]) -> None:
    voice, split, grammar, sentence, rule, text = told
    begins_s, ends_s = edges(sound)
    (corpus / file).parent.mkdir(parents=True, exist_ok=True)
    soundfile.write(corpus / file, _level(sound, file), SAMPLE_RATE, subtype="PCM_16")
    synthesiser = voices.ALL[voice].synthesiser
    clip = Clip(file, voice, synthesiser, split, grammar, sentence, rule, text, begins_s, ends_s)
    append(corpus, clip)


def _level(sound: Sound, seed: str) -> Sound:
    peak = 10 ** (Random(seed).uniform(*_PEAK_DB) / 20)
    return np.asarray(sound * (peak / float(np.abs(sound).max())), np.float32)


def _other_voice(split: str, number: int) -> str:
    spoken = tuple(voices.TUNE if split == "tune" else voices.REPORT)
    return spoken[number // len(prose.KINDS) % len(spoken)]


def _file(folder: str, voice: str, text: str) -> str:
    return f"{folder}/{voice}/{hashlib.sha256(text.encode()).hexdigest()[:16]}.wav"
