"""What lies in a corpus: one line of JSON for each file."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

CORPUS = Path("/work/tools/corpus")

NAME = "manifest.jsonl"


@dataclass(frozen=True, slots=True)
class Clip:
    """One file of speech.

    file: path below the corpus. synthesiser: the program that spoke. split: "tune" or "report".
    grammar: path of the JSGF file, or the name of a moment of the program (hearing_grammars); empty for
    other speech. sentence: the grammar's words that were spoken; empty for other speech. rule: the public
    rule, or the kind of other speech. text: what was spoken, other speech included. begins_s, ends_s: first
    and last sound.
    """

    file: str
    voice: str
    synthesiser: str
    split: str
    grammar: str
    sentence: str
    rule: str
    text: str
    begins_s: float
    ends_s: float

    @property
    def name(self) -> str:
        """Name of the grammar, as hearing_grammars has it."""
        return Path(self.grammar).stem if self.grammar.endswith(".jsgf") else self.grammar


def read(corpus: Path) -> Iterator[Clip]:
    """Every clip of a corpus, in the order in which they were made."""
    file = corpus / NAME
    if not file.exists():
        return
    for line in file.read_text("utf-8").splitlines():
        yield Clip(**json.loads(line))


def append(corpus: Path, clip: Clip) -> None:
    """Add a clip at the end."""
    corpus.mkdir(parents=True, exist_ok=True)
    with (corpus / NAME).open("a", encoding="utf-8") as file:
        file.write(json.dumps(asdict(clip)) + "\n")
