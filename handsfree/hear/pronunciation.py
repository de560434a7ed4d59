"""How words sound: the pronouncing dictionary that comes with PocketSphinx (CMUdict, in ARPAbet)."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

import pocketsphinx

from handsfree.errors import ModelError
from handsfree.words import worded


def pronunciations(words: Collection[str]) -> Mapping[str, tuple[str, ...]]:
    """The phones of each word that the dictionary has, as it is mostly said. Raises ModelError."""
    file = Path(pocketsphinx.get_model_path()) / "en-us" / "cmudict-en-us.dict"
    try:
        with file.open(encoding="utf-8") as lines:
            entries = (line.split() for line in lines)
            return {word: tuple(phones) for word, *phones in entries if word in words}
    except OSError:
        raise ModelError(
            worded("The pronouncing dictionary {file} cannot be read.", file=file),
            worded("Install pocketsphinx again."),
        ) from None
