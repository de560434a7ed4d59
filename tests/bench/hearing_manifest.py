"""What lies in a corpus: one line of JSON for each file."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, fields
from pathlib import Path

from tests.bench.hearing_edges import edges, sound_of

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


_FIELDS = tuple(field.name for field in fields(Clip))


def read(corpus: Path) -> Iterator[Clip]:
    """Every clip of a corpus, in the order in which they were made; of other fields nothing is kept.

    Recordings of people (tests/bench/people.py) have no synthesiser but a source, and may leave out where the
    speech begins and ends: their files tell.
    """
    file = corpus / NAME
    if not file.exists():
        return
    for line in file.read_text("utf-8").splitlines():
        row = json.loads(line)
        if "ends_s" not in row:
            row["begins_s"], row["ends_s"] = edges(sound_of(corpus / row["file"]))
        row.setdefault("synthesiser", row.get("source", ""))
        row.setdefault("text", row["sentence"])
        row["rule"] = row["rule"] or row["kind"]
        yield Clip(**{name: row[name] for name in _FIELDS})


def append(corpus: Path, clip: Clip) -> None:
    """Add a clip at the end."""
    corpus.mkdir(parents=True, exist_ok=True)
    with (corpus / NAME).open("a", encoding="utf-8") as file:
        file.write(json.dumps(asdict(clip)) + "\n")
