"""Reads the manifest of the fixtures."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"


@dataclass(frozen=True, slots=True)
class Fixture:
    """One recording. kind: in_grammar or oov. why: of a refusal, what makes it one."""

    file: str
    kind: str
    voice: str
    synthesiser: str
    licence: str
    sha256: str
    words: str = ""
    why: str = ""

    @property
    def path(self) -> Path:
        """Where it lies."""
        return FIXTURES / self.file

    @property
    def sentence(self) -> str:
        """Its words, if they are to be heard: none for a refusal."""
        return self.words if self.kind == "in_grammar" else ""


def manifest() -> tuple[Fixture, ...]:
    """Every fixture, in the order of the plan."""
    tables = tomllib.loads((FIXTURES / "manifest.toml").read_text("utf-8"))["fixture"]
    return tuple(Fixture(**table) for table in tables)


def below(folder: str) -> tuple[Fixture, ...]:
    """The fixtures in one folder: `utterances`, `sessions/aid_station`."""
    return tuple(one for one in manifest() if one.file.startswith(f"{folder}/"))
