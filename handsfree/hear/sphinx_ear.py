"""The PocketSphinx ear: pip alone, its English model is inside the wheel.

Its grammar search finds a sentence in anything. So a loop over all phones, free of any grammar, hears the
same sound beside it: where the loop explains the sound much better than the sentence does, the sentence was
not said.
"""

from __future__ import annotations

import math
import operator
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pocketsphinx
from numpy.typing import NDArray

from handsfree.errors import ModelError
from handsfree.hear.commit import Committer
from handsfree.hear.detector import SpeechDetector
from handsfree.ports import Graph, Sentences
from handsfree.signals import FRAME_SAMPLES, Alternative, Frame, Utterance

ALSO_SAID = {
    "tourniquet(2)": "T UH R N IH K EY",
    "tourniquet(3)": "T AO N IH K EY",
}
"""British ways to say words, which the dictionary lacks (from memory)."""

HISS_DB = -60.0
"""Level of the noise that is laid under all sound. Recordings have stretches of nothing at all, which no
microphone ever gave, and of which the model makes nonsense."""

OUTSIDE = "[unk]"
"""Word for speech outside the grammar, as Vosk has it."""

SCORE_SCALE = 1024.0
"""PocketSphinx shifts its log scores right by 10 bits to save room (`SENSCR_SHIFT` in its hmm.h)."""

REFUSED_BELOW = -3.0
"""Natural log a frame by which a sentence may explain the sound worse than phones do. Measured in quiet, six
synthetic voices, the grammar of one moment: of 120 commands 77 % stay right and 3 % go wrong, of 72 sentences
outside the grammar 1 % is heard. Without refusal it would be 83, 7 and 53 %."""

_SLOPE, _OFFSET = 1.9, 6.0
"""Logistic fit of right against wrong to the same sentences."""


class SphinxEar:
    """Ear over PocketSphinx. Loading takes 0.1 s. Raises ModelError where its model is missing."""

    def __init__(self) -> None:
        self._recogniser = _SphinxRecogniser()
        self._committer = Committer(SpeechDetector())

    def knows(self, word: str) -> bool:
        """Tell whether the dictionary has this word (lower case)."""
        return self._recogniser.knows(word)

    def listen(self, sentences: Sentences) -> None:
        """Swap the grammar; what was half heard is dropped."""
        self._recogniser.take(sentences)
        self._committer.listen(self._recogniser, sentences)

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        return self._committer.hear(frame)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """One word or phone: its frames (10 ms each), and the natural log of how well it explains one of them."""

    word: str
    frames: range
    log_per_frame: float

    @property
    def is_word(self) -> bool:
        return self.word[0] not in "<([+"


class _SphinxRecogniser:
    def __init__(self) -> None:
        model = Path(pocketsphinx.get_model_path()) / "en-us"
        common = {"hmm": str(model / "en-us"), "lm": None, "loglevel": "FATAL"}
        try:
            # The second passes would cost their time when the user is waiting.
            self._words = pocketsphinx.Decoder(
                **common, dict=str(model / "cmudict-en-us.dict"), fwdflat=False, bestpath=False
            )
            self._phones = pocketsphinx.Decoder(
                **common,
                dict=None,
                allphone=str(model / "en-us-phone.lm.bin"),
                lw=1.0,
                beam=1e-20,
                pbeam=1e-20,
            )
        except (RuntimeError, ValueError) as wrong:
            raise ModelError(
                "PocketSphinx cannot load its model.", "Install it again: pip install pocketsphinx"
            ) from wrong
        for word, phones in ALSO_SAID.items():
            self._words.add_word(word, phones)
        self._hiss = _hiss()
        self._running = False

    def knows(self, word: str) -> bool:
        return self._words.lookup_word(word) is not None

    def take(self, sentences: Sentences) -> None:
        self._end()
        strangers = sorted(word for word in sentences.words if not self.knows(word))
        if strangers:
            raise ModelError(
                f"PocketSphinx does not know: {', '.join(strangers)}.", "Give sounds-like spellings."
            )
        graph = sentences.graph()
        said = self._words.create_fsg("said", 0, len(graph.moves), _transitions(graph))
        self._words.add_fsg("said", said)
        self._words.activate_search("said")

    def feed(self, pcm: bytes) -> None:
        sound = np.clip(np.frombuffer(pcm, "<i2") + self._hiss, -32768, 32767).astype("<i2").tobytes()
        for decoder in (self._words, self._phones):
            if not self._running:
                decoder.start_utt()
            decoder.process_raw(sound, False, False)
        self._running = True

    def partial(self) -> tuple[str, ...]:
        best = self._words.hyp()
        return tuple(best.hypstr.split()) if best else ()

    def rests(self) -> bool:
        return False

    def result(self) -> tuple[Alternative, ...]:
        self._end()
        best = self._words.hyp()
        words = [stretch for stretch in _stretches(self._words) if stretch.is_word] if best else []
        if not words:
            return (Alternative((OUTSIDE,)),)
        leads = _leads(words, _stretches(self._phones))
        frames = [len(word.frames) for word in words]
        if sum(map(operator.mul, leads, frames)) / sum(frames) < REFUSED_BELOW:
            return (Alternative((OUTSIDE,)),)
        confidence = tuple(1 / (1 + math.exp(-_SLOPE * lead - _OFFSET)) for lead in leads)
        return (Alternative(tuple(best.hypstr.split()), _natural_log(best.score), confidence),)

    def _end(self) -> None:
        if self._running:
            self._words.end_utt()
            self._phones.end_utt()
        self._running = False


def _transitions(graph: Graph) -> list[tuple[int, int, float] | tuple[int, int, float, str]]:
    """As PocketSphinx takes them. There is one end, which is reached without a word."""
    end = len(graph.moves)
    words = [(state, to, 1.0, word) for state, ways in enumerate(graph.moves) for word, to in ways.items()]
    return [*words, *((state, end, 1.0) for state in graph.ends)]


def _stretches(decoder: pocketsphinx.Decoder) -> list[_Stretch]:
    found = decoder.seg() or ()
    spans = ((seg, range(seg.start_frame, seg.end_frame + 1)) for seg in found)
    return [_Stretch(seg.word, span, _natural_log(seg.ascore) / len(span)) for seg, span in spans if span]


def _leads(words: list[_Stretch], phones: list[_Stretch]) -> list[float]:
    """Natural log a frame, for each word, by which it explains its frames better than the phones do."""
    free = {frame: phone.log_per_frame for phone in phones for frame in phone.frames}
    return [
        word.log_per_frame - sum(free.get(frame, 0.0) for frame in word.frames) / len(word.frames)
        for word in words
    ]


def _hiss() -> NDArray[np.int32]:
    amplitude = 32768 * 10 ** (HISS_DB / 20)
    return np.random.default_rng(0).normal(0, amplitude, FRAME_SAMPLES).astype(np.int32)


def _natural_log(score: float) -> float:
    return SCORE_SCALE * math.log(max(score, sys.float_info.min))
