"""When is an utterance over? One logic for all recognisers.

Silence is kept from the recogniser; speech reaches it with the moment before, so that no first syllable is
lost. How long a pause may be is asked of the grammar: after a whole sentence that nothing can follow, hardly
at all. Whether somebody still speaks is asked twice: of the detector, which is quick, and of the recogniser,
which is slower but is not taken in by other voices or by noise that never ends.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import Enum
from typing import Protocol

from handsfree.hear.edges import levels_of, over_room_db, speech_edges
from handsfree.hear.foreground import in_front
from handsfree.hear.room import RoomFilter
from handsfree.hear.unheard import measured
from handsfree.ports import Sentences, Standing
from handsfree.signals import FRAME_S, Alternative, Frame, Utterance


class Pause(Enum):
    """Seconds without speech that end an utterance, by what has been understood so far.

    The detector lets go 0.06 to 0.1 s after the last sound, so a user waits so much longer, and a breath that
    is bridged may be so much longer, too. The recogniser's words settle 0.2 s after the last sound (90th
    percentile): no pause may be much shorter.
    """

    WHOLE = 0.19
    """A sentence, and nothing can follow."""

    MAY_GO_ON = 0.50
    """A sentence, and more can follow."""

    COUNTING = 0.56
    """The same, in a number, a spelling or a list: a breath of half a second does not cut it off."""

    UNFINISHED = 1.20
    """The beginning of a sentence."""

    OUTSIDE = 0.80
    """Nothing, or nothing that the grammar knows."""


RESTS_LATE_S = 0.10
"""The recogniser's model tells silence at the least so long after it began: it looks ahead, and works in
steps."""

STIRRING_S = 0.13
"""A pause lasts so much longer where speech may just be beginning again: the detector needs a moment."""

LONGEST_S = 15.0
"""An utterance is closed after this, whatever the sound: noise must not keep the ear busy for ever."""

LATELY_S = 60.0
"""So long it is remembered how loud people spoke."""

BEFORE_S = 0.5
"""Sound before the first speech that the recogniser gets."""

_BEFORE = round(BEFORE_S / FRAME_S)


class Recogniser(Protocol):
    """What differs between ears: turns the sound of one utterance into words, again and again."""

    def feed(self, pcm: bytes) -> None:
        """Take the next piece of the utterance: half a frame at first, then frames."""

    def partial(self) -> tuple[str, ...]:
        """Words so far."""

    def rests(self) -> bool:
        """Tell whether its best reading ends in silence; never where it cannot tell."""

    def result(self) -> tuple[Alternative, ...]:
        """Close the utterance; best reading first, none without words. The next feed begins anew.

        Ends of words are told in seconds from the first feed.
        """

    def dictated(self) -> tuple[Alternative, ...]:
        """What was read without a grammar in the utterance that was closed last; none where it was not."""


class Detector(Protocol):
    """Tells speech from silence."""

    def hears(self, frame: Frame) -> bool:
        """Take the next frame and tell whether someone speaks in it."""

    def stirs(self) -> bool:
        """Tell whether someone may be about to speak in it."""

    def reset(self) -> None:
        """Forget the sound so far: it has ended, and what follows is another."""


class Committer:
    """Cuts the stream of frames into utterances for one ear. Frames come in order."""

    def __init__(self, detector: Detector) -> None:
        self._detector = detector
        self._room = RoomFilter()
        self._recogniser: Recogniser | None = None
        self._sentences: Sentences | None = None
        self._before: deque[Frame] = deque(maxlen=_BEFORE)
        self._frames: list[Frame] = []
        self._spoken: list[tuple[float, float]] = []
        self._first_s = self._last_s = self._moved_s = 0.0

    def listen(self, sentences: Sentences, recogniser: Callable[[], Recogniser]) -> None:
        """Listen for these from now on; what was half heard is dropped.

        recogniser: makes one for them. It is kept while they stay the same, and has heard nothing by halves.
        """
        if self._recogniser is None or sentences is not self._sentences or self._frames:
            self._recogniser, self._sentences = recogniser(), sentences
        self._before.clear()
        self._frames.clear()

    @property
    def stirred(self) -> bool:
        """Whether something is being heard that may be speech."""
        return bool(self._frames)

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        if frame is None:
            self._detector.reset()
            self._room = RoomFilter()
        if self._recogniser is None or self._sentences is None:
            return None
        if frame is None:
            last = self._close(self._recogniser, self._sentences)
            self._spoken.clear()
            return last
        speech = self._detector.hears(frame)
        if not self._frames:
            self._wait(frame, speech, self._recogniser)
            return None
        self._take(frame, speech, self._recogniser)
        over = self._is_over(self._recogniser, self._sentences)
        return self._close(self._recogniser, self._sentences) if over else None

    def _wait(self, frame: Frame, speech: bool, recogniser: Recogniser) -> None:
        self._before.append(frame)
        if not speech:
            self._room.learn(frame.pcm)
        else:
            self._first_s = frame.end_s - FRAME_S
            self._last_s = self._moved_s = frame.end_s
            self._frames.extend(self._before)
            self._room.begin()
            for before in self._before:
                recogniser.feed(self._room.clean(before.pcm))

    def _take(self, frame: Frame, speech: bool, recogniser: Recogniser) -> None:
        self._frames.append(frame)
        recogniser.feed(self._room.clean(frame.pcm))
        if not recogniser.rests():
            self._moved_s = frame.end_s
        if speech:
            self._last_s = frame.end_s

    def _is_over(self, recogniser: Recogniser, sentences: Sentences) -> bool:
        now_s = self._frames[-1].end_s
        silence_s = max(now_s - self._last_s, self._rest_s(now_s))
        if now_s - self._first_s >= LONGEST_S:
            return True
        if silence_s < Pause.WHOLE.value:
            return False
        beyond_s = silence_s - pause_after(recogniser.partial(), sentences).value
        return beyond_s >= (STIRRING_S if self._detector.stirs() else 0.0)

    def _rest_s(self, now_s: float) -> float:
        """How long the recogniser's model has heard silence."""
        return now_s - self._moved_s + RESTS_LATE_S if self._moved_s < now_s else 0.0

    def _close(self, recogniser: Recogniser, sentences: Sentences) -> Utterance | None:
        if not self._frames:
            return None
        heard, self._frames = self._frames, []
        alternatives = recogniser.result()
        if not any(one.words for one in alternatives):
            self._before.extend(heard)  # noise; a word may just have begun in it
            return None
        self._before.clear()
        pcm = b"".join(frame.pcm for frame in heard)
        levels_db = levels_of(pcm)
        began_s, decided_s = heard[0].end_s - FRAME_S, heard[-1].end_s
        first_s, last_s = speech_edges(levels_db, self._first_s - began_s, self._last_s - began_s)
        start_s, end_s = began_s + first_s, min(began_s + last_s, decided_s)
        alternatives = in_front(alternatives, levels_db, sentences)
        alternatives = measured(alternatives, levels_db, first_s, last_s)
        lost = _lost(heard, end_s - start_s)
        below_db = self._below_db(decided_s, max(frame.taken.level_db for frame in heard))
        return Utterance(
            tuple(_begun_at(one, began_s) for one in alternatives),
            start_s,
            end_s,
            decided_s,
            pcm,
            over_room_db=over_room_db(levels_db),
            lost=lost,
            below_db=below_db,
            dictated=tuple(_begun_at(one, began_s) for one in recogniser.dictated()),
        )

    def _below_db(self, now_s: float, level_db: float) -> float:
        """By how much this is quieter than the loudest that was said lately, itself included."""
        lately = [(at_s, loud_db) for at_s, loud_db in self._spoken if now_s - at_s <= LATELY_S]
        self._spoken = [*lately, (now_s, level_db)]
        return max(loud_db for _, loud_db in self._spoken) - level_db


def _lost(heard: Sequence[Frame], speech_s: float) -> float:
    """Share of the speech that is missing. Words at its end may be gone too: all the sound is looked at."""
    missing_s = FRAME_S * sum(frame.taken.lost for frame in heard)
    return min(1.0, missing_s / max(speech_s, FRAME_S))


def _begun_at(one: Alternative, began_s: float) -> Alternative:
    """A reading whose words were timed from the start of the utterance, timed from that of the source."""
    begins_s, ends_s = (tuple(began_s + at_s for at_s in times) for times in (one.begins_s, one.ends_s))
    return replace(one, begins_s=begins_s, ends_s=ends_s)


def pause_after(words: tuple[str, ...], sentences: Sentences) -> Pause:
    """Tell which pause ends an utterance of which `words` have been understood."""
    if not words:
        return Pause.OUTSIDE
    match sentences.standing(words):
        case Standing(possible=False):
            return Pause.OUTSIDE
        case Standing(complete=False):
            return Pause.UNFINISHED
        case Standing(counting=True):
            return Pause.COUNTING
        case Standing(more=True):
            return Pause.MAY_GO_ON
        case _:
            return Pause.WHOLE
