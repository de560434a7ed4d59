"""Tries a microphone with one sentence: how loud speech and room are, and whether the ear understands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import islice

from handsfree.hear.level import SILENT_DB, STANDS_OUT_DB
from handsfree.hear.watch import CLIPPED_SHARE, DEAD_DB, FAINT_DB
from handsfree.ports import Ear, Sentences
from handsfree.signals import FRAME_S, Frame, Taken
from handsfree.trial import Flaw, Trial

LISTENED_S = 8.0
"""So long somebody has to begin and end one sentence."""

NOISY_DB = 18.0
"""Speech that stands less above the room: at 15 dB three commands of four are heard (docs/accuracy.md)."""

CLIPPED_FRAMES = 1 / 7
"""Of the frames of speech; see `CLIPPED_SHARE`."""

_ROOM_SHARE = 0.1
"""A tenth of all frames are quieter than what is taken for the room's level: somebody may speak all along."""


def try_sentence(
    frames: Iterable[Frame], ear: Ear, sentences: Sentences, asked: str, seen: Callable[[float], None]
) -> Trial:
    """Listen until a sentence was understood, LISTENED_S at most.

    asked: what was to be said; the ear listens for all sentences, as in a session. seen: told the level of
    each frame in dB. Raises SoundError where the source does.
    """
    ear.listen(sentences)
    taken: list[Taken] = []
    understood = ""
    for frame in islice(frames, round(LISTENED_S / FRAME_S)):
        taken.append(frame.taken)
        seen(frame.taken.level_db)
        utterance = ear.hear(frame)
        if utterance is not None and sentences.match(utterance.alternatives[0].words):
            understood = " ".join(utterance.alternatives[0].words)
            break
    return judged(taken, understood, asked)


def judged(taken: Sequence[Taken], understood: str, asked: str) -> Trial:
    """What follows from the frames as they came. understood: as in Trial. asked: what was to be said."""
    levels_db = sorted(one.level_db for one in taken) or [SILENT_DB]
    room_db, loudest_db = levels_db[int(_ROOM_SHARE * len(levels_db))], levels_db[-1]
    speech = [one for one in taken if one.level_db >= room_db + STANDS_OUT_DB]
    clipped = [one for one in speech if one.clipped >= CLIPPED_SHARE]
    flaws = {
        Flaw.DEAD: loudest_db <= DEAD_DB,
        Flaw.SILENT: not speech and not understood,
        Flaw.CLIPPED: bool(clipped) and len(clipped) >= CLIPPED_FRAMES * len(speech),
        Flaw.FAINT: loudest_db < FAINT_DB,
        Flaw.NOISY: loudest_db - room_db < NOISY_DB,
        Flaw.UNCLEAR: understood != asked,
    }
    return Trial(room_db, loudest_db, understood, next((one for one, there in flaws.items() if there), None))
