"""Trouble with the sound is told once when it begins, and once when it is over."""

from __future__ import annotations

import pytest

from handsfree.hear.watch import SoundWatch
from handsfree.signals import FRAME_S, Alternative, Frame, Noticed, Taken, Trouble, Utterance

ROOM = Taken(-75.0)
ZEROS = Taken(-120.0)
CLIPPED = Taken(-8.0, clipped=0.3)
LOUD = Taken(-8.0, clipped=0.05)
LOST = Taken(-120.0, lost=True)

Part = tuple[float, Taken]
"""Seconds, and how their frames were taken."""


def noticed(*parts: Part) -> list[Noticed]:
    """All that is told of frames, one part after the other."""
    watch, told = SoundWatch(), []
    taken = [one for seconds, one in parts for _ in range(round(seconds / FRAME_S))]
    for number, one in enumerate(taken, start=1):
        watch.take(Frame(b"", number * FRAME_S, one))
        while found := watch.noticed():
            told.append(found)
    return told


DEAD, ALIVE = Noticed(Trouble.DEAD), Noticed(Trouble.DEAD, over=True)
TOO_LOUD, NO_MORE = Noticed(Trouble.CLIPPED), Noticed(Trouble.CLIPPED, over=True)
SLOW, QUICK = Noticed(Trouble.LOST), Noticed(Trouble.LOST, over=True)

LONG = 600.0

SOUNDS = [
    pytest.param([(LONG, ROOM)], [], id="a still room is not a dead microphone"),
    pytest.param([(LONG, Taken(-100.0))], [], id="nor is a device of little hiss"),
    pytest.param([(4.0, ZEROS), (1.0, ROOM)] * 5, [], id="nor one that is mute between words"),
    pytest.param([(LONG, ZEROS)], [DEAD], id="dead: said once"),
    pytest.param([(6.0, ZEROS), (1.0, ROOM)], [DEAD, ALIVE], id="alive again"),
    pytest.param([(8.0, ZEROS), (1.0, ROOM)] * 9, [DEAD, ALIVE], id="muted again and again: once"),
    pytest.param([(6.0, ZEROS), (1.0, ROOM), (11.0, ZEROS)], [DEAD, ALIVE, DEAD], id="for longer: again"),
    pytest.param([(LONG, LOUD)], [], id="a few clipped samples do not harm"),
    pytest.param([(0.2, CLIPPED), (60.0, ROOM)] * 5, [], id="nor does a thump now and then"),
    pytest.param([(0.2, CLIPPED), (1.0, LOUD)] * 30, [TOO_LOUD], id="too loud, word for word: once"),
    pytest.param([(0.5, CLIPPED), (60.0, ROOM)], [TOO_LOUD, NO_MORE], id="no longer too loud"),
    pytest.param([(0.05, LOST), (60.0, ROOM)] * 5, [], id="a moment lost now and then"),
    pytest.param([(0.3, LOST), (1.0, ROOM)] * 60, [SLOW], id="lost again and again: once"),
    pytest.param([(10.0, LOST), (60.0, ROOM)], [SLOW, QUICK], id="lost is not dead; over after a while"),
]


@pytest.mark.parametrize(("parts", "told"), SOUNDS)
def test_what_is_noticed(parts: list[Part], told: list[Noticed]) -> None:
    """Of these sounds, exactly this is told."""
    assert told == noticed(*parts)


def utterance(words: str, at_s: float) -> Utterance:
    return Utterance((Alternative(tuple(words.split())),), at_s, at_s + 0.5, at_s + 0.8)


FAINT, CLEAR = Noticed(Trouble.FAINT), Noticed(Trouble.FAINT, over=True)

SPEAKERS = [
    pytest.param([("next", -30.0)] * 5, [], id="clear"),
    pytest.param([("next", -62.0)], [], id="once is chance"),
    pytest.param([("next", -62.0)] * 5, [FAINT], id="faint: said once"),
    pytest.param([("[unk]", -62.0)] * 5, [], id="others, far off"),
    pytest.param([("next", -62.0), ("next", -62.0), ("next", -40.0)], [FAINT, CLEAR], id="closer now"),
]


@pytest.mark.parametrize(("said", "told"), SPEAKERS)
def test_faint_words_are_noticed(said: list[tuple[str, float]], told: list[Noticed]) -> None:
    """Who is heard only faintly, twice in a row, is told; over with the first clear sentence."""
    watch, found = SoundWatch(), []
    for number, (words, level_db) in enumerate(said):
        for frame in range(32):
            watch.take(Frame(b"", number + frame * FRAME_S, Taken(level_db)))
        watch.heard(utterance(words, number + 0.2))
        while one := watch.noticed():
            found.append(one)

    assert told == found
