"""Makes the corpus of the hearing benchmark: python -m tests.bench.hearing --make

What is there already is not made again, so it can be broken off and run once more. Sentences, voices, rates
and levels follow from fixed seeds.
"""

from __future__ import annotations

from collections import Counter
from itertools import cycle
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
from tests.bench.hearing_plan import OTHER_FILES, PORTIONS, Planned, plan
from tests.voice.synthesisers import Sound

_PEAK_DB = (-18.0, -3.0)
"""Quiet and loud speakers, against full scale."""

_TALKERS = 4

_PAUSE_S = (0.3, 2.0)

_LEAST_S, _MOST_S = 60.0, 110.0
"""Length of a file of other speech."""


def make(corpus: Path) -> None:
    """Make all that is missing."""
    clips = list(read(corpus))
    there = {clip.file for clip in clips}
    made = Counter(grammars.field(clip.name) for clip in clips)
    for split in OTHER_FILES:
        _babble(corpus, split)
    for planned in plan():
        # The program's own grammars change, and so does the plan: what was made of them before counts.
        enough = planned.sentence and made[planned.field] >= PORTIONS[planned.field][-1]
        if planned.file not in there and not enough:
            there.add(planned.file)
            made[planned.field] += 1
            sound, text = _speech(planned)
            _keep(corpus, planned, sound, text)


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


def _speech(planned: Planned) -> tuple[Sound, str]:
    """The sound and the words: a sentence, or a minute or two of one person's talk with pauses."""
    if planned.sentence:
        return trimmed(voices.said(planned.voice, planned.sentence)), planned.sentence
    random = Random(planned.file)
    parts: list[Sound] = []
    texts: list[str] = []
    wanted = random.uniform(_LEAST_S, _MOST_S) * SAMPLE_RATE
    for text in prose.sentences(planned.rule, planned.split, planned.file):
        pause = np.zeros(round(random.uniform(*_PAUSE_S) * SAMPLE_RATE), np.float32)
        parts += [trimmed(voices.said(planned.voice, text)), pause]
        texts.append(text)
        if sum(map(len, parts)) >= wanted:
            break
    return np.concatenate(parts), ". ".join(texts)


def _keep(corpus: Path, planned: Planned, sound: Sound, text: str) -> None:
    begins_s, ends_s = edges(sound)
    file = corpus / planned.file
    file.parent.mkdir(parents=True, exist_ok=True)
    soundfile.write(file, _level(sound, planned.file), SAMPLE_RATE, subtype="PCM_16")
    clip = Clip(
        file=planned.file,
        voice=planned.voice,
        synthesiser=voices.ALL[planned.voice].synthesiser,
        split=planned.split,
        grammar=planned.grammar,
        sentence=planned.sentence,
        rule=planned.rule,
        text=text,
        begins_s=begins_s,
        ends_s=ends_s,
    )
    append(corpus, clip)


def _level(sound: Sound, seed: str) -> Sound:
    peak = 10 ** (Random(seed).uniform(*_PEAK_DB) / 20)
    return np.asarray(sound * (peak / float(np.abs(sound).max())), np.float32)
