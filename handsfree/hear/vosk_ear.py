"""The Vosk ear: an n-gram over neighbouring words of the grammar's phrases, twenty alternatives."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import vosk

from handsfree.errors import ModelError
from handsfree.hear.commit import Committer
from handsfree.hear.detector import SpeechDetector
from handsfree.hear.models import GET_IT
from handsfree.hear.overlay import overlaid
from handsfree.hear.vosk_prices import prices
from handsfree.ports import Sentences
from handsfree.signals import SAMPLE_RATE, UNKNOWN, Alternative, Frame, Utterance
from handsfree.words import worded

ALTERNATIVES = 20
"""Readings of an utterance that are asked for. The first one that the whole grammar accepts is far better
than the best one alone: at 6 dB, 95 % of long sentences against 83.5 %."""

AMID_TALK = 80
"""The same where sentences stand in the midst of other talk, which is read in many ways itself: of twelve
steps that were not found in twenty readings, three were in eighty, and no more was misheard."""

NEVER = "<s>"
"""A word that the model lists and nobody can say."""

WEIGHTS = (" ".join([NEVER] * 30_000), " ".join([UNKNOWN] * 20))
"""Phrases that set prices. Vosk's estimator counts words and pairs of words: a pair that is not listed costs
0.7 nats and those for the share of its second word in all words. Counts of a word that never comes make what
the grammar forbids dear, 7 nats and more, and make speech outside it cost the same beside every grammar."""

_MUTE = -2
"""Log level at which Vosk keeps even its warnings to itself: -1 lets them through."""


class VoskEar:
    """Ear over a Vosk model folder. Loading takes 0.4 s and 170 MB. Raises ModelError."""

    def __init__(self, model: Path) -> None:
        vosk.SetLogLevel(_MUTE)
        try:
            with overlaid(model) as folder:
                self._model = vosk.Model(str(folder))
        except Exception as wrong:  # Vosk raises nothing narrower
            raise ModelError(worded("Vosk cannot load {model}.", model=model), GET_IT) from wrong
        self._committer = Committer(SpeechDetector())

    @property
    def stirred(self) -> bool:
        """Whether what it hears now may be speech."""
        return self._committer.stirred

    def knows(self, word: str) -> bool:
        """Tell whether the model has a pronunciation of this word (lower case)."""
        return bool(self._model.vosk_model_find_word(word) >= 0)

    def listen(self, sentences: Sentences) -> None:
        """Swap the grammar (0.02 s for 3,000 phrases); what was half heard is dropped."""
        self._committer.listen(sentences, lambda: _VoskRecogniser(self._model, sentences))

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        return self._committer.hear(frame)


class _VoskRecogniser:
    """Where sentences may stand in the midst of other words, dictation hears the same sound beside them."""

    def __init__(self, model: vosk.Model, sentences: Sentences) -> None:
        phrases = (*sentences.phrases(), *sentences.opposites(), *WEIGHTS)
        self._prices = prices(phrases)
        self._words = vosk.KaldiRecognizer(model, SAMPLE_RATE, json.dumps(phrases))
        self._dictation = vosk.KaldiRecognizer(model, SAMPLE_RATE) if sentences.loose else None
        for each in self._both():
            each.SetMaxAlternatives(AMID_TALK if sentences.loose else ALTERNATIVES)
            each.SetWords(True)
        self._dictated: tuple[Alternative, ...] = ()
        self._rests = False
        self._fed_s = self._before_s = 0.0

    def feed(self, pcm: bytes) -> None:
        self._fed_s += len(pcm) / (2 * SAMPLE_RATE)
        self._rests, *_ = [bool(each.AcceptWaveform(pcm)) for each in self._both()]

    def rests(self) -> bool:
        return self._rests

    def partial(self) -> tuple[str, ...]:
        return tuple(json.loads(self._words.PartialResult())["partial"].split())

    def result(self) -> tuple[Alternative, ...]:
        found, *dictated = [tuple(self._read(each)) for each in self._both()]
        self._dictated = next(iter(dictated), ())
        self._before_s = self._fed_s
        return tuple(replace(one, price=self._prices.of(one.words)) for one in found)

    def dictated(self) -> tuple[Alternative, ...]:
        return self._dictated

    def _both(self) -> Iterator[vosk.KaldiRecognizer]:
        yield self._words
        if self._dictation is not None:
            yield self._dictation

    def _read(self, recogniser: vosk.KaldiRecognizer) -> Iterator[Alternative]:
        """Each reading once: the same words come more than once, with other pauses between them."""
        read = set[tuple[str, ...]]()
        for reading in json.loads(recogniser.FinalResult())["alternatives"]:
            words = tuple(reading["text"].split())
            if words not in read:
                read.add(words)
                # Vosk's times run on from utterance to utterance.
                begins_s, ends_s = (
                    tuple(word[edge] - self._before_s for word in reading.get("result", ()))
                    for edge in ("start", "end")
                )
                yield Alternative(words, reading["confidence"], begins_s=begins_s, ends_s=ends_s)
