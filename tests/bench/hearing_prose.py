"""Other speech, which no grammar holds: everyday talk, talk in the grammars' own words, licence texts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import cycle, islice
from pathlib import Path
from random import Random

from handsfree.cli.grammar_files import read_grammar_file
from handsfree.phrases.grammar import Grammar, compile_grammar
from tests.bench import hearing_grammars as grammars
from tests.bench.hearing_sentences import drawn

LICENCES = Path("/usr/share/common-licenses")

TALK = Path(__file__).parent / "talk.jsgf"

KINDS = ("talk", "near", "licence", "talk")
"""Kinds of text, file by file in turn."""

_FRAMES = (
    "i told him {} but he did not listen",
    "she said {} and then she laughed",
    "do you remember the day when somebody shouted {}",
    "{} is what it says on the sign",
    "the book has a whole page on {} i believe",
    "they never say {} where i come from",
)
"""Talk about commands: the command stands whole inside, and is not meant."""


def sentences(kind: str, split: str, seed: str) -> Iterator[str]:
    """Endless sentences of a kind: "talk", "near" or "licence"; no sentence of the split's grammars."""
    found: Iterator[str]
    match kind:
        case "talk":
            found = (sentence for _, sentence in drawn(_talk(), seed))
        case "near":
            found = _near(split, Random(seed))
        case "licence":
            found = _licence(seed)
        case _:
            raise ValueError(kind)
    return (one for one in found if not _is_command(one, split))


@cache
def _talk() -> Grammar:
    return compile_grammar(read_grammar_file(TALK))


def _near(split: str, random: Random) -> Iterator[str]:
    """The grammars' words: in another order, or the whole command inside a longer sentence."""
    sources = [drawn(grammars.compiled(name), f"{random.random()}") for name in names(split)]
    for commands in cycle(sources):
        _, command = next(commands)
        if random.random() < 0.5:
            yield random.choice(_FRAMES).format(command)
            continue
        words = command.split() + next(commands)[1].split()
        random.shuffle(words)
        yield " ".join(words[:12])


def names(split: str) -> tuple[str, ...]:
    """Names of the grammars of a split, the program's moments among them where it is for tuning."""
    return ("garden", *grammars.own()) if split == "tune" else grammars.REPORT


def _licence(seed: str) -> Iterator[str]:
    texts = _licence_sentences()
    begin = Random(seed).randrange(len(texts))
    return islice(cycle(texts), begin, None)


@cache
def _licence_sentences() -> list[str]:
    files = sorted(file for file in LICENCES.iterdir() if file.is_file() and not file.is_symlink())
    text = " ".join(file.read_text("utf-8", "replace") for file in files)
    words = (re.sub(r"[^A-Za-z',; ]+", " ", one).split() for one in re.split(r"[.:!?]\s|\n\n", text))
    return [" ".join(one).lower() for one in words if 4 <= len(one) <= 40]


def _is_command(sentence: str, split: str) -> bool:
    words = tuple(sentence.split())
    return any(grammars.compiled(name).match(words) for name in names(split))
