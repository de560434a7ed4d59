"""The PocketSphinx ear: pip alone, its English model is inside the wheel.

While somebody speaks it follows the words roughly, to tell when a sentence is complete. Once the utterance is
over, the whole of it is heard again: only then is its average known, which takes out what room, microphone
and speaker add. Its search finds a sentence in anything, so a loop over all phones, free of any grammar,
hears the same sound, and the two are weighed against each other.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pocketsphinx
from numpy.typing import NDArray

from handsfree.errors import ModelError
from handsfree.hear.commit import Committer
from handsfree.hear.detector import SpeechDetector
from handsfree.hear.sphinx_evidence import SCALE, Evidence, evidence, natural_log
from handsfree.ports import Graph, Sentences
from handsfree.signals import FRAME_SAMPLES, UNKNOWN, Alternative, Frame, Utterance
from handsfree.words import worded

ALSO_SAID = {
    "kilohertz": "K IH L AH HH ER T S",
    "tourniquet(2)": "T UH R N IH K EY",
    "tourniquet(3)": "T AO N IH K EY",
}
"""Words, and British ways to say words, which the dictionary lacks (from memory)."""

HISS_DB = -60.0
"""Level of the noise that is laid under all sound. Recordings have stretches of nothing at all, which no
microphone ever gave, and of which the model makes nonsense."""

BEAMS = {"beam": 1e-60, "pbeam": 1e-60, "wbeam": 1e-40}
"""How much less likely than the best a way through the grammar may be and is still followed. Beside noise
the right one is often far behind for a while; PocketSphinx's own 1e-48 and 7e-29 lose more of them."""

PHONE_BEAMS = {"beam": 1e-20, "pbeam": 1e-20}
"""The same for the phones, of which there are few."""

NATS = 7.5
"""A frame's sound is much like the next one's, so scores are too sure: they are divided by this,
which makes of a lead what the judge takes it for (tests/bench/sphinx_scale.py)."""

REFUSED_BELOW = 0.2
"""Confidence below which not even a guess is told."""

PER_S = 100
"""Frames of its own in a second."""

NOTHING = Alternative((UNKNOWN,))


class SphinxEar:
    """Ear over PocketSphinx. Loading takes 0.1 s. Raises ModelError where its model is missing.

    refused_below: confidence below which a sentence is speech outside the grammar.
    """

    def __init__(self, refused_below: float = REFUSED_BELOW) -> None:
        self.recogniser = SphinxRecogniser(refused_below)
        self._committer = Committer(SpeechDetector())

    @property
    def stirred(self) -> bool:
        """Whether what it hears now may be speech."""
        return self._committer.stirred

    def knows(self, word: str) -> bool:
        """Tell whether the dictionary has this word (lower case)."""
        return self.recogniser.knows(word)

    def listen(self, sentences: Sentences) -> None:
        """Swap the grammar; what was half heard is dropped."""
        self._committer.listen(sentences, lambda: self.recogniser.taking(sentences))

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        return self._committer.hear(frame)


class SphinxRecogniser:
    """Two decoders over the same sound. evidence: what spoke for the last result, None where it was none."""

    def __init__(self, refused_below: float) -> None:
        model = Path(pocketsphinx.get_model_path()) / "en-us"
        common = {"hmm": str(model / "en-us"), "lm": None, "loglevel": "FATAL"}
        try:
            # The second passes are for n-grams; the lattice gives the alternatives without them.
            self._words = pocketsphinx.Decoder(
                **common, dict=str(model / "cmudict-en-us.dict"), fwdflat=False, bestpath=False, **BEAMS
            )
            self._phones = pocketsphinx.Decoder(
                **common, dict=None, allphone=str(model / "en-us-phone.lm.bin"), lw=1.0, **PHONE_BEAMS
            )
        except (RuntimeError, ValueError) as wrong:
            raise ModelError(
                worded("PocketSphinx cannot load its model."),
                worded("Install it again: pip install pocketsphinx"),
            ) from wrong
        for word, phones in ALSO_SAID.items():
            self._words.add_word(word, phones)
        self._refused_below = refused_below
        self._hiss = _hiss()
        self._heard: list[bytes] = []
        self._graph = Graph((), frozenset())
        self.evidence: Evidence | None = None

    def knows(self, word: str) -> bool:
        """Tell whether the dictionary has this word (lower case)."""
        return self._words.lookup_word(word) is not None

    def taking(self, sentences: Sentences) -> SphinxRecogniser:
        """This one, hearing these from now on. Raises ModelError for words without a pronunciation."""
        self._end()
        strangers = sorted(word for word in sentences.words if not self.knows(word))
        if strangers:
            raise ModelError(
                worded("PocketSphinx does not know: {words}.", words=", ".join(strangers)),
                worded("Give sounds-like spellings."),
            )
        self._graph = sentences.graph()
        self._listen("said", self._graph)
        return self

    def feed(self, pcm: bytes) -> None:
        """Take the next piece of the utterance, a frame at most."""
        samples = np.frombuffer(pcm, "<i2")
        sound = np.clip(samples + self._hiss[: len(samples)], -32768, 32767).astype("<i2").tobytes()
        if not self._heard:
            self._words.start_utt()
        self._words.process_raw(sound, False, False)
        self._heard.append(sound)

    def partial(self) -> tuple[str, ...]:
        """Words so far."""
        best = self._words.hyp()
        return tuple(best.hypstr.split()) if best else ()

    def rests(self) -> bool:
        """It cannot tell."""
        return False

    def result(self) -> tuple[Alternative, ...]:
        """Close the utterance: the two likeliest sentences, each word with the confidence that it was one of
        them; or speech outside the grammar."""
        sound = self._end()
        best = self._heard_again(self._words, sound)
        self._heard_again(self._phones, sound)
        self.evidence = evidence(self._words, self._phones)
        if self.evidence is None or (sure := SCALE.likely(self.evidence)) < self._refused_below:
            return (NOTHING,)
        found = (one for one in (best, self._other(best.words, sound)) if one.words)
        told = (replace(one, word_confidence=(sure,) * len(one.words)) for one in found)
        return tuple(sorted(told, key=lambda one: -one.score))

    def dictated(self) -> tuple[Alternative, ...]:
        """It knows no words but those of sentences."""
        return ()

    def _other(self, words: tuple[str, ...], sound: bytes) -> Alternative:
        """What is heard where these words may not be."""
        graph, start = without(self._graph, words)
        self._listen("other", graph, start)
        other = self._heard_again(self._words, sound)
        self._words.activate_search("said")
        return other

    def _listen(self, name: str, graph: Graph, start: int = 0) -> None:
        end = len(graph.moves)
        self._words.add_fsg(name, self._words.create_fsg(name, start, end, _transitions(graph)))
        self._words.activate_search(name)

    @staticmethod
    def _heard_again(decoder: pocketsphinx.Decoder, sound: bytes) -> Alternative:
        # Once it has heard sound in pieces, it goes on guessing the average, from what was heard before.
        decoder.reinit_feat()
        decoder.start_utt()
        decoder.process_raw(sound, False, True)
        decoder.end_utt()
        best = decoder.hyp()
        if not best:
            return Alternative(())
        ends_s = tuple((one.end_frame + 1) / PER_S for one in decoder.seg() if one.word[0] not in "<[+(")
        return Alternative(tuple(best.hypstr.split()), natural_log(best.score) / NATS, ends_s=ends_s)

    def _end(self) -> bytes:
        """The sound of the utterance, which is over."""
        if self._heard:
            self._words.end_utt()
        sound = b"".join(self._heard)
        self._heard.clear()
        return sound


def without(graph: Graph, words: tuple[str, ...]) -> tuple[Graph, int]:
    """The graph without one sentence, and where it starts now: the way along it is laid a second time, and
    who follows that to the end has not said a sentence."""
    start, state = len(graph.moves), 0
    moves, ends = [*graph.moves], set(graph.ends)
    for word in words:
        if state in graph.ends:
            ends.add(len(moves))
        moves.append({**graph.moves[state], word: len(moves) + 1})
        state = graph.moves[state][word]
    return Graph((*moves, graph.moves[state]), frozenset(ends)), start


def _transitions(graph: Graph) -> list[tuple[int, int, float] | tuple[int, int, float, str]]:
    """As PocketSphinx takes them. There is one end, which is reached without a word.

    It takes no graph without any: where no sentence can be said, nothing can.
    """
    end = len(graph.moves)
    words = [(state, to, 1.0, word) for state, ways in enumerate(graph.moves) for word, to in ways.items()]
    return [*words, *((state, end, 1.0) for state in graph.ends or (0,))]


def _hiss() -> NDArray[np.int32]:
    amplitude = 32768 * 10 ** (HISS_DB / 20)
    return np.random.default_rng(0).normal(0, amplitude, FRAME_SAMPLES).astype(np.int32)
