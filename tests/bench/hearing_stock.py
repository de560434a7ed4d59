"""Vosk as it comes: the model's own settings and end-pointing, the best reading and no other."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import vosk

from handsfree.signals import FRAME_SAMPLES, SAMPLE_RATE, Node
from tests.bench import hearing_grammars as grammars
from tests.voice.synthesisers import Sound


@dataclass(frozen=True, slots=True)
class StockHeard:
    """An utterance that is over. nodes: what it is in the grammar. decided_s: sound that had come by then."""

    text: str
    nodes: tuple[Node, ...]
    decided_s: float


class StockVosk:
    """A plain recogniser over the same model, phrases and frames. model: folder of the model."""

    def __init__(self, model: Path) -> None:
        vosk.SetLogLevel(-2)
        self._model = vosk.Model(str(model))

    def heard(self, name: str, sound: Sound) -> tuple[StockHeard, ...]:
        """Every utterance in a sound, with the grammar of this name."""
        grammar = grammars.compiled(name, self._knows)
        return tuple(
            StockHeard(text, grammar.match(tuple(text.split())), decided_s)
            for text, decided_s in self._results(grammar.phrases(), sound)
            if text.replace("[unk]", "").strip()
        )

    def _results(self, phrases: tuple[str, ...], sound: Sound) -> Iterator[tuple[str, float]]:
        kaldi = vosk.KaldiRecognizer(self._model, SAMPLE_RATE, json.dumps([*phrases, "[unk]"]))
        whole = np.clip(np.rint(sound * 32768), -32768, 32767).astype("<i2")
        for begin in range(0, len(whole), FRAME_SAMPLES):
            if kaldi.AcceptWaveform(whole[begin : begin + FRAME_SAMPLES].tobytes()):
                yield json.loads(kaldi.Result())["text"], (begin + FRAME_SAMPLES) / SAMPLE_RATE
        yield json.loads(kaldi.FinalResult())["text"], len(whole) / SAMPLE_RATE

    def _knows(self, word: str) -> bool:
        return bool(self._model.vosk_model_find_word(word) >= 0)
