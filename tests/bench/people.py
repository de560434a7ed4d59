"""Commands and other speech by people, for the report only: nothing of it chooses a threshold.

    apt-get install pocketsphinx-testdata ffmpeg tuxpaint-stamps-default \\
        asterisk-core-sounds-en-g722 asterisk-core-sounds-{fr,es,it,ru}-g722
    python -m tests.bench.people FOLDER

Writes 16 kHz WAV files and `manifest.jsonl` into the folder. Kinds: `cards` and `animals` (several people, as
they said it), `whole` (a prompt in one breath), `composed` (words of one speaker put together), `breath` (the
same with a breath inside), `other` and `foreign` (speech that is no command).
The prompts are by Allison Smith and others, CC-BY-SA-3.0 (Russian: CC-BY-3.0); the recogniser's test data is
under BSD-2-Clause, the animals of the stamps under GPL-2. None of it is copied into the project.
"""

from __future__ import annotations

import argparse
import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, count, islice, zip_longest
from pathlib import Path
from random import Random

import numpy as np
import soundfile

from handsfree.phrases.grammar import Grammar
from handsfree.phrases.tree import short
from handsfree.signals import SAMPLE_RATE
from tests.bench import people_recordings as people
from tests.bench.hearing_grammars import compiled
from tests.bench.hearing_sentences import drawn
from tests.bench.people_recordings import Recording
from tests.voice.noises import Sound, at_level, white

SEED = "people"
COMPOSED, BREATHS = 700, 150
BREATH_S = (0.3, 0.4, 0.5)
GAP_S = (0.04, 0.12)
"""Between two words that were recorded one by one."""

ROOM_DB = -60.0
"""Level of the room tone, all through a file."""

BEFORE_S, AFTER_S = 0.6, 2.0
PAUSE_S = (0.4, 1.2)
"""Between the sentences of other speech."""

MINUTE_S = 60.0
MOST_WORDS = 8
"""Of a prompt that counts as a command: nobody breathes inside."""

LONG_WORDS = 5
"""And more: a prompt that counts as other speech."""

_FRAME = SAMPLE_RATE // 100
_AUDIBLE_DB = -38.0
"""Of the loudest frame: below is the silence around a word."""

Clips = Mapping[str, Sequence[Recording]]
"""Recordings by their words."""


@dataclass(frozen=True, slots=True)
class Utterance:
    """A row of the manifest and its sound."""

    kind: str
    grammar: str
    rule: str
    sentence: str
    sources: tuple[Recording, ...]
    sound: Sound
    breath_s: float = 0.0

    def row(self, file: str) -> dict[str, object]:
        """As the manifest has it."""
        first = self.sources[0]
        return {
            "file": file,
            "kind": self.kind,
            "voice": first.voice,
            "source": first.package,
            "licence": first.licence,
            "split": "report",
            "grammar": f"tests/bench/grammars/{self.grammar}.jsgf",
            "sentence": self.sentence,
            "rule": self.rule,
            "breath_s": self.breath_s,
            "recordings": [one.name for one in self.sources],
        }


def trimmed(sound: Sound) -> Sound:
    """Without the silence before and after, level kept; 20 ms are left, soft consonants end there."""
    frames = sound[: len(sound) // _FRAME * _FRAME].reshape(-1, _FRAME)
    level_db = 10 * np.log10(np.mean(np.square(frames), axis=1) + 1e-12)
    loud = np.flatnonzero(level_db > level_db.max() + _AUDIBLE_DB)
    first, last = int(loud[0]), int(loud[-1])
    return sound[max(0, first - 2) * _FRAME : (last + 3) * _FRAME]


def joined(sounds: Sequence[Sound], gaps_s: Iterable[float]) -> Sound:
    """One after the other, with these silences between them."""
    between = (np.zeros(round(gap_s * SAMPLE_RATE), np.float32) for gap_s in islice(gaps_s, len(sounds) - 1))
    pairs = zip_longest(sounds, between)
    return np.concatenate([part for pair in pairs for part in pair if part is not None])


def in_room(sound: Sound, seed: int) -> Sound:
    """With room tone before, under and after it."""
    around = [np.zeros(round(seconds * SAMPLE_RATE), np.float32) for seconds in (BEFORE_S, AFTER_S)]
    whole = np.concatenate((around[0], sound, around[1]))
    room = at_level(white(len(whole) / SAMPLE_RATE + 1, seed)[: len(whole)], ROOM_DB)
    return np.asarray(np.clip(whole + room, -1, 1), np.float32)


def rule_of(grammar: Grammar, words: str) -> str:
    """The command that these words are, empty if none."""
    return next((short(node.rule) for node in grammar.match(tuple(words.split()))), "")


def whole(kind: str, name: str, recordings: Iterable[Recording]) -> Iterator[Utterance]:
    """Recordings that are a command of this grammar, as they were spoken."""
    grammar = compiled(name)
    for one in recordings:
        rule = rule_of(grammar, one.words)
        if rule and len(one.words.split()) <= MOST_WORDS:
            yield Utterance(kind, name, rule, one.words, (one,), trimmed(one.sound))


def pieces(words: str, clips: Clips, random: Random) -> tuple[Recording, ...]:
    """Recordings that say these words together, longest first; none if a word was never recorded."""
    left, found = words.split(), []
    while left:
        lengths = (length for length in (4, 3, 2, 1) if " ".join(left[:length]) in clips)
        length = next(lengths, 0)
        if not length:
            return ()
        found.append(random.choice(clips[" ".join(left[:length])]))
        left = left[length:]
    return tuple(found)


def composed(clips: Clips) -> Iterator[Utterance]:
    """Endless sentences of the desk, put together from recordings of words; no sentence twice."""
    random, said = Random(SEED), set(clips)
    for rule, sentence in drawn(compiled("desk"), SEED):
        parts = pieces(sentence, clips, random)
        if parts and sentence not in said:
            said.add(sentence)
            yield Utterance("composed", "desk", rule, sentence, parts, _together(parts, random))


def _together(parts: Sequence[Recording], random: Random, breath_at: int = 0, breath_s: float = 0.0) -> Sound:
    gaps_s = [random.uniform(*GAP_S) for _ in parts]
    if breath_at:
        gaps_s[breath_at - 1] = breath_s
    return joined([trimmed(one.sound) for one in parts], gaps_s)


def with_breath(given: Iterable[Utterance]) -> Iterator[Utterance]:
    """Those with a number or call sign of several words, a breath in the middle of it."""
    random = Random(SEED)
    lengths_s = (BREATH_S[number % len(BREATH_S)] for number in count())
    for one in given:
        inside = [at for at in range(1, len(one.sources)) if _spelt(one.sources[at - 1 : at + 1])]
        if inside:
            breath_s = next(lengths_s)
            sound = _together(one.sources, random, inside[len(inside) // 2], breath_s)
            yield Utterance("breath", one.grammar, one.rule, one.sentence, one.sources, sound, breath_s)


def _spelt(parts: Iterable[Recording]) -> bool:
    return all(one.name.startswith(("digits/", "phonetic/")) for one in parts)


def prose(kind: str, recordings: Iterable[Recording]) -> Iterator[Utterance]:
    """Other speech in files of about a minute."""
    random, open_, length_s = Random(SEED), list[Recording](), 0.0
    for one in chain(recordings, (None,)):
        if open_ and (one is None or length_s > MINUTE_S):
            gaps_s = (random.uniform(*PAUSE_S) for _ in open_)
            yield Utterance(kind, "desk", "", "", tuple(open_), joined([it.sound for it in open_], gaps_s))
            open_, length_s = [], 0.0
        if one is not None:
            open_.append(one)
            length_s += len(one.sound) / SAMPLE_RATE


def no_command(recordings: Iterable[Recording]) -> Iterator[Recording]:
    """Long ones none of whose sentences is a command of the desk."""
    desk = compiled("desk")
    for one in recordings:
        told = any(rule_of(desk, words) for words in (one.words, *one.sentences))
        if len(one.words.split()) >= LONG_WORDS and not told:
            yield one


def everything() -> Iterator[Utterance]:
    """Every file, in the order of the manifest."""
    prompts = people.prompts()
    clips: dict[str, list[Recording]] = defaultdict(list)
    for one in prompts:
        clips[one.words].append(one)
    yield from whole("cards", "cards", people.sphinx_commands())
    yield from whole("animals", "animals", people.stamps())
    yield from whole("whole", "desk", prompts)
    yield from islice(composed(clips), COMPOSED)
    yield from islice(with_breath(composed(clips)), BREATHS)
    yield from prose("other", (*people.sphinx_prose(), *no_command(prompts)))
    for language in people.FOREIGN:
        yield from prose("foreign", people.foreign(language))


def write(folder: Path, utterances: Iterable[Utterance]) -> None:
    """Sound files, numbered, and their manifest."""
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "manifest.jsonl").open("w") as manifest:
        for number, one in enumerate(utterances):
            file = f"{number:04d}_{one.kind}.wav"
            soundfile.write(folder / file, in_room(one.sound, number), SAMPLE_RATE, "PCM_16")
            manifest.write(json.dumps(one.row(file)) + "\n")


def main() -> None:
    """Build it all."""
    parser = argparse.ArgumentParser(description="Commands and other speech by people.")
    parser.add_argument("folder", type=Path)
    write(parser.parse_args().folder, everything())


if __name__ == "__main__":
    main()
