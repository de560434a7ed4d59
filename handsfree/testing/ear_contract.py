"""What every ear keeps to. Each check takes a fresh or used ear; sound comes as frames from 0 s on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from handsfree.ports import Ear, Sentences
from handsfree.signals import FRAME_S, FRAME_SAMPLES, Frame, Utterance

_SILENCE = bytes(2 * FRAME_SAMPLES)


@dataclass(frozen=True, slots=True)
class Spoken:
    """One sentence of a grammar as sound: frames that begin before it and end right after it."""

    sentences: Sentences
    words: tuple[str, ...]
    frames: tuple[Frame, ...]


def utterances(ear: Ear, frames: Iterable[Frame], *, end: bool = True) -> list[Utterance]:
    """Everything that an ear makes of frames, and of the end of the sound."""
    heard = [ear.hear(frame) for frame in frames]
    if end:
        heard.append(ear.hear(None))
    return [utterance for utterance in heard if utterance is not None]


def silence(seconds: float, after_s: float = 0.0) -> list[Frame]:
    """Frames of nothing."""
    return [Frame(_SILENCE, after_s + number * FRAME_S) for number in range(1, round(seconds / FRAME_S) + 1)]


def check_silence(ear: Ear, spoken: Spoken) -> None:
    """Silence says nothing."""
    ear.listen(spoken.sentences)
    assert utterances(ear, silence(3)) == []


def check_sentence(ear: Ear, spoken: Spoken) -> None:
    """A sentence followed by silence is one utterance, decided before the silence has become long."""
    ear.listen(spoken.sentences)
    end_s = spoken.frames[-1].end_s
    (heard,) = utterances(ear, (*spoken.frames, *silence(3, end_s)), end=False)
    _check_utterance(heard, spoken)
    assert heard.decided_s < end_s + 1.5


def check_end_of_sound(ear: Ear, spoken: Spoken) -> None:
    """The end of the sound closes what was said up to it, and nothing is left over."""
    ear.listen(spoken.sentences)
    (heard,) = utterances(ear, spoken.frames)
    _check_utterance(heard, spoken)
    assert ear.hear(None) is None


def check_half_heard(ear: Ear, spoken: Spoken) -> None:
    """What is half heard when the grammar is swapped never comes out."""
    ear.listen(spoken.sentences)
    assert utterances(ear, spoken.frames, end=False) == []
    ear.listen(spoken.sentences)
    assert utterances(ear, silence(3, spoken.frames[-1].end_s)) == []


def check_same_again(ear: Ear, spoken: Spoken) -> None:
    """The same sound gives the same words, whenever it comes; only the times move on."""
    ear.listen(spoken.sentences)
    once = utterances(ear, spoken.frames)
    shift_s = spoken.frames[-1].end_s
    again = utterances(ear, [replace(frame, end_s=frame.end_s + shift_s) for frame in spoken.frames])
    assert [heard.alternatives[0].words for heard in once] == [heard.alternatives[0].words for heard in again]
    assert all(later.start_s > earlier.end_s for earlier, later in zip(once, again, strict=True))


def check_words(ear: Ear, known: str, unknown: str) -> None:
    """The ear tells the words that it knows from those that it does not."""
    assert ear.knows(known)
    assert not ear.knows(unknown)


def _check_utterance(heard: Utterance, spoken: Spoken) -> None:
    assert spoken.words in [reading.words for reading in heard.alternatives]
    assert len(heard.alternatives) <= 20
    assert all(better.score >= worse.score for better, worse in pairwise(heard.alternatives))
    assert all(len(reading.word_confidence) in (0, len(reading.words)) for reading in heard.alternatives)
    assert 0 <= heard.start_s < heard.end_s <= heard.decided_s
    assert len(heard.pcm) % len(_SILENCE) == 0
