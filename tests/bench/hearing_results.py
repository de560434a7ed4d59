"""What came of one recording, and the file of JSON lines that keeps it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class Told:
    """One command in one noise.

    verdict: right, wrong, asked or refused; stock: the same of stock Vosk, or empty where it did not run.
    heard, stock_heard: the sentences. more: something can follow the sentence in its grammar.
    wait_s, stock_wait_s: from the last sound of the clean recording to the decision; None without one.
    speech_s, still_s: seconds of sound while somebody spoke (until the decision), and of the rest.
    speech_used_s, still_used_s: seconds of computing for them.
    """

    ear: str
    file: str
    voice: str
    synthesiser: str
    field: str
    rule: str
    sentence: str
    noise: str
    level: str
    verdict: str
    heard: tuple[str, ...]
    more: bool
    wait_s: float | None
    speech_s: float
    still_s: float
    speech_used_s: float
    still_used_s: float
    stock: str = ""
    stock_heard: tuple[str, ...] = ()
    stock_wait_s: float | None = None

    @property
    def key(self) -> tuple[str, ...]:
        """What makes it one trial of a run."""
        return "told", self.ear, self.file, self.level


@dataclass(frozen=True, slots=True)
class Overheard:
    """A minute or two of other speech, heard with one grammar.

    called: whether commands needed a call word. accepted: what was taken for commands. asked: what the
    program would have asked about. used_s: seconds of computing for sound_s seconds of sound.
    """

    ear: str
    file: str
    voice: str
    kind: str
    grammar: str
    called: bool
    accepted: tuple[str, ...]
    asked: int
    sound_s: float
    used_s: float

    @property
    def key(self) -> tuple[str, ...]:
        """What makes it one trial of a run."""
        return "overheard", self.ear, self.file, f"{self.grammar} {self.called}"


Result = Told | Overheard

_KINDS: dict[str, type[Told] | type[Overheard]] = {"told": Told, "overheard": Overheard}


def read(files: Iterable[Path]) -> Iterator[Result]:
    """The results of several runs; a line that was cut off by a break is left out."""
    for file in files:
        for line in file.read_text("utf-8").splitlines() if file.exists() else ():
            try:
                told = json.loads(line)
            except json.JSONDecodeError:
                continue
            fields: dict[str, Any] = {
                key: tuple(one) if isinstance(one, list) else one for key, one in told.items()
            }
            yield _KINDS[fields.pop("kind_of_result")](**fields)


def append(file: Path, result: Result) -> None:
    """Keep one more result."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("a", encoding="utf-8") as lines:
        lines.write(json.dumps({"kind_of_result": result.key[0], **asdict(result)}) + "\n")
