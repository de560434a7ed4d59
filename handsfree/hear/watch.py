"""Watches over the sound of a microphone: is it dead, are words faint or clipped, is the machine too slow?"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from math import inf

from handsfree.hear.commit import LONGEST_S
from handsfree.signals import FRAME_S, UNKNOWN, Frame, Noticed, Trouble, Utterance

DEAD_DB = -110.0
"""Quieter than this is no room, however still: a microphone that is on gives at least a hiss."""

FAINT_DB = -58.0
"""Where the loudest frame of an utterance lies below, its words are at about -64 dB. Of 77 sentences Vosk
gets 72 right at -60 dB, as in plain sound, and 62 at -70."""

CLIPPED_SHARE = 0.2
"""Of a frame's samples. With speech so loud that every seventh frame has as many, 69 of 77 sentences are
right in place of 73; with every third, 55."""

FAINT_UTTERANCES = 2
"""So many in a row are not by chance."""


class _Sign:
    """Seconds of trouble, added up and slowly forgotten.

    needs_s: how many make it a trouble; each time twice as many as before, so that it is not told again and
    again. forgets: seconds forgotten for each second without.
    """

    def __init__(self, needs_s: float, forgets: float) -> None:
        self._needs_s, self._forgets = needs_s, forgets
        self._sum_s, self._begun = 0.0, False

    def change(self, bad: bool, lasted_s: float) -> bool | None:
        """Take what was found for some time: whether the trouble begins now, is over now, or neither."""
        more_s = lasted_s if bad else -self._forgets * lasted_s
        self._sum_s = min(self._needs_s, max(0.0, self._sum_s + more_s))
        if not self._begun and self._sum_s >= self._needs_s:
            self._begun = True
            return True
        if self._begun and not self._sum_s:
            self._begun, self._needs_s = False, 2 * self._needs_s
            return False
        return None


class SoundWatch:
    """Takes the frames that are listened to, and the utterances in them; tells what begins and ends."""

    def __init__(self) -> None:
        self._signs = {
            Trouble.DEAD: _Sign(5.0, inf),
            Trouble.CLIPPED: _Sign(0.4, 0.02),
            Trouble.LOST: _Sign(0.1, 0.01),
            Trouble.FAINT: _Sign(FAINT_UTTERANCES, inf),
        }
        self._frames: deque[Frame] = deque(maxlen=round(LONGEST_S / FRAME_S))
        self._found: deque[Noticed] = deque()

    def take(self, frame: Frame) -> None:
        """Take the next frame that was listened to."""
        taken = frame.taken
        self._frames.append(frame)
        self._note(Trouble.LOST, taken.lost, FRAME_S)
        if not taken.lost:
            self._note(Trouble.DEAD, taken.level_db <= DEAD_DB, FRAME_S)
            self._note(Trouble.CLIPPED, taken.clipped >= CLIPPED_SHARE, FRAME_S)

    def heard(self, utterance: Utterance) -> None:
        """Take an utterance that was heard in these frames; one without a known word may be anybody's."""
        if set(utterance.alternatives[0].words) - {UNKNOWN}:
            loudest_db = max(self._levels_in(utterance), default=0.0)
            self._note(Trouble.FAINT, loudest_db < FAINT_DB, 1)

    def noticed(self) -> Noticed | None:
        """What was found and not told yet."""
        return self._found.popleft() if self._found else None

    def _note(self, trouble: Trouble, bad: bool, lasted_s: float) -> None:
        changed = self._signs[trouble].change(bad, lasted_s)
        if changed is not None:
            self._found.append(Noticed(trouble, over=not changed))

    def _levels_in(self, utterance: Utterance) -> Iterator[float]:
        spoken = (one for one in self._frames if utterance.start_s <= one.end_s <= utterance.end_s + FRAME_S)
        yield from (one.taken.level_db for one in spoken)
